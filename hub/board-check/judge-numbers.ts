import { type Point, right, shown, untested, wrong } from './point.ts'
import { firstTimes, type Heard, lastSaid, type Transcript } from './transcript.ts'

/** A message may have been under way when `kept` was said, or be cut short by the board's own pace. */
const UNDER_WAY_MS = 1500

/** Start-up and message numbers, and what rests on them: repeats until `kept`. */
export function judgeNumbers(transcript: Transcript, all: readonly Heard[]): Point[] {
  const packs = all.filter(({ trouble, signals }) => trouble === null && signals.length > 0)
  return [
    judgeNumbering(packs),
    ...(transcript.way === 'serial'
      ? [judgeRepeats(transcript, packs), judgeSilence(transcript, packs)]
      : [
          untested('repeats', 'the broker acknowledges each message at once'),
          untested('kept', 'the broker acknowledges each message at once'),
        ]),
    judgeStartup(packs),
  ]
}

function judgeNumbering(packs: readonly Heard[]): Point {
  if (packs.length === 0) return untested('numbers', 'no message with a signal came')
  const bare = packs.find(({ startup, message }) => startup === undefined || message === undefined)
  if (bare) return wrong('numbers', `no startup and message in ${shown(bare.text)}`)
  const odd = packs
    .flatMap(({ startup, message }) => [startup!, message!])
    .find((number) => !Number.isSafeInteger(number) || number < 0)
  if (odd !== undefined) return wrong('numbers', `${odd} is no whole number from 0 to 2^53`)
  const once = firstTimes(packs)
  for (const [place, { startup, message, dropped }] of once.entries()) {
    const before = once[place - 1]
    if (before?.startup !== startup) continue
    const step = message! - before!.message!
    if (step < 1) return wrong('numbers', `message ${before!.message} is followed by ${message}`)
    if (step > 1 && (dropped ?? 0) === (before!.dropped ?? 0))
      return wrong(
        'numbers',
        `message ${before!.message} is followed by ${message}, and none is said to be dropped`,
      )
  }
  const [first, last] = [once[0]!, once.at(-1)!]
  return right('numbers', `start-up ${last.startup}, messages ${first.message} to ${last.message}`)
}

function judgeRepeats({ events }: Transcript, packs: readonly Heard[]): Point {
  const repeated = [...grouped(packs).values()].filter((same) => same.length > 1)
  for (const [first, ...others] of repeated)
    for (const other of others)
      if (valuesOf(first!) !== valuesOf(other))
        return wrong(
          'repeats',
          `message ${other.message} came as ${shown(valuesOf(first!))}, then as ${shown(valuesOf(other))}`,
        )
  const [same] = repeated
  if (same)
    return right(
      'repeats',
      `message ${same[0]!.message} came ${same.length} times with the same values until "kept"`,
    )
  const isHeldBack = events.some((event) => event.kind === 'said' && event.words.startsWith('kept '))
  return isHeldBack
    ? wrong('repeats', `message ${packs[0]?.message} went unanswered and was not sent again`)
    : untested('repeats', 'no numbered message came')
}

function judgeSilence(transcript: Transcript, packs: readonly Heard[]): Point {
  let isAnswered = false
  for (const { startup, message, atMs, text } of packs) {
    const keptAtMs = lastSaidBefore(transcript, `kept ${startup} ${message}`, atMs)
    if (keptAtMs !== null && atMs - keptAtMs > UNDER_WAY_MS)
      return wrong(
        'kept',
        `sent again ${((atMs - keptAtMs) / 1000).toFixed(1)} s after "kept": ${shown(text)}`,
      )
    isAnswered ||= lastSaid(transcript, (words) => words === `kept ${startup} ${message}`) !== null
  }
  return isAnswered
    ? right('kept', 'no message was sent again after it')
    : untested('kept', 'no numbered message came')
}

function judgeStartup(packs: readonly Heard[]): Point {
  const startups = [...new Set(packs.flatMap(({ startup }) => startup ?? []))]
  return startups.length > 1
    ? right('reset', `start-ups ${startups.join(', ')}: the port’s opening has reset it`)
    : untested('reset', 'a reset cannot be asked for: press its button and see that "startup" changes')
}

function lastSaidBefore({ events }: Transcript, words: string, beforeMs: number): number | null {
  const said = events.filter(
    (event) => event.kind === 'said' && event.words === words && event.atMs < beforeMs,
  )
  return said.length === 0 ? null : said[0]!.atMs
}

const keyOf = ({ startup, message }: Heard) => `${startup} ${message}`

function grouped(packs: readonly Heard[]): Map<string, Heard[]> {
  const groups = new Map<string, Heard[]>()
  for (const heard of packs) groups.set(keyOf(heard), [...(groups.get(keyOf(heard)) ?? []), heard])
  return groups
}

function valuesOf({ signals, dropped }: Heard): string {
  const all = signals.map(({ channel, value }) => `${channel} ${value}`)
  return [...all, ...(dropped === undefined ? [] : [`dropped ${dropped}`])].join(', ')
}
