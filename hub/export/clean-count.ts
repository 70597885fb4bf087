import type { CleanCount } from '../contract/clean.ts'
import { acceptsSuspect, leftOutWhole } from '../quality/clean.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import type { Timelines } from '../survey/timeline.ts'
import { spansToExport } from './readings-csv.ts'

/** How many readings of a survey are clean, and for the others how many for each reason: they add up to all of them. */
export function countClean(
  reader: Pick<SqliteReader, 'channels' | 'countByReason' | 'received'>,
  timelines: Timelines,
  survey: string,
): CleanCount {
  const counts = new Map<string, number>()
  for (const { channel, fromMs, toMs, segment } of spansToExport(reader, timelines, {
    set: 'all',
    survey,
    drift: 'hidden',
    method: 'hidden',
  })) {
    const whole = leftOutWhole(segment)
    const found =
      whole === null
        ? reader.countByReason(channel, fromMs, toMs, acceptsSuspect(segment))
        : [[whole, reader.received(channel, fromMs, toMs)] as const]
    for (const [reason, n] of found) if (n > 0) counts.set(reason, (counts.get(reason) ?? 0) + n)
  }
  const clean = counts.get('clean') ?? 0
  counts.delete('clean')
  const leftOut = [...counts].map(([reason, n]) => ({ reason, n })).sort((a, b) => b.n - a.n)
  const all = leftOut.reduce((sum, { n }) => sum + n, clean)
  return { all, clean, leftOut, sentence: sentenceOf(all, clean, leftOut) }
}

function sentenceOf(all: number, clean: number, leftOut: CleanCount['leftOut']): string {
  const number = (n: number) => n.toLocaleString('en-GB')
  const why = leftOut.map(({ reason, n }) => `${number(n)} ${reason}`).join(', ')
  return `Of ${number(all)} readings ${number(clean)} are clean${why ? `; left out: ${why}` : ''}.`
}
