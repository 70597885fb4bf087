import type { AnimalRecord } from '../contract/species.ts'
import type { ExposedCatch } from '../contract/study.ts'
import type { SurveyFile } from '../contract/survey.ts'
import type { Timelines } from '../survey/timeline.ts'
import { methodText } from './factors.ts'
import { zoneOrUtc } from './report/time-text.ts'
import { matchLabels } from './species/match-labels.ts'
import { type CountingReader, collect } from './summary/collect.ts'

/**
 * Each catch with what the probes of its quadrat read while the trap stood. A trap is found by its own name among the
 * survey's traps, else its station is the label of a quadrat.
 */
export function exposedCatches(
  reader: CountingReader,
  timelines: Timelines,
  survey: SurveyFile,
  records: readonly AnimalRecord[],
): ExposedCatch[] {
  const labels = survey.quadrats.map(({ label }) => label)
  const stations = [...new Set(records.map(({ station }) => station))]
  const matched = new Map(
    matchLabels(labels, stations).matched.map(({ typed, survey: label }) => [typed, label]),
  )
  const windows = new Map<string, ReturnType<typeof collect>>()
  const collectedIn = (fromMs: number, toMs: number) => {
    const key = `${fromMs} ${toMs}`
    const known = windows.get(key) ?? collect(reader, timelines, survey.id, { fromMs, toMs })
    windows.set(key, known)
    return known
  }
  return records.map((record) => {
    const trap = survey.traps?.find(({ id }) => id === record.station)
    const quadrat = trap?.quadrat ?? matched.get(record.station) ?? null
    const setAt =
      instantOf(record.effort.setAt, survey.site.timeZone) ?? (trap ? Date.parse(trap.setAt) : null)
    const checkedAt =
      instantOf(record.effort.checkedAt, survey.site.timeZone) ??
      (trap?.checks.length ? Date.parse(trap.checks.at(-1)!.at) : null)
    const isKnown = quadrat !== null && setAt !== null && checkedAt !== null && checkedAt > setAt
    const hours = record.effort.hours ?? (isKnown ? (checkedAt - setAt) / 3_600_000 : null)
    const traps = record.effort.traps ?? 1
    return {
      record,
      quadrat,
      fromMs: setAt,
      toMs: checkedAt,
      hours,
      perTrap: record.count / traps,
      perTrapHour: hours ? record.count / (traps * hours) : null,
      factors: isKnown
        ? collectedIn(setAt, checkedAt)
            .filter((each) => each.quadrat === quadrat)
            .map(({ quantity, method, unit, value }) => ({
              quantity,
              method: methodText(method),
              unit,
              n: value.length,
              mean: value.reduce((sum, each) => sum + each, 0) / value.length,
              low: value.reduce((least, each) => Math.min(least, each), Infinity),
              high: value.reduce((most, each) => Math.max(most, each), -Infinity),
            }))
        : [],
      whyNone: isKnown ? null : whyNone(quadrat, setAt, checkedAt, record.station),
    }
  })
}

function whyNone(
  quadrat: string | null,
  setAt: number | null,
  checkedAt: number | null,
  station: string,
): string {
  if (quadrat === null) return `No trap or quadrat of the survey is called “${station}”.`
  if (setAt === null || checkedAt === null)
    return 'When it was set and when it was looked at is not written down.'
  return 'It was looked at before it was set: one of the two times is wrong.'
}

/** A local time without a zone is the site's. */
export function instantOf(text: string | undefined, timeZone: string | undefined): number | null {
  if (text === undefined) return null
  if (/(Z|[+-]\d\d:?\d\d)$/.test(text)) return Date.parse(text)
  const asUtc = Date.parse(`${text}Z`)
  if (Number.isNaN(asUtc)) return null
  // the offset at the moment that has this local time; a second look puts right the hours around a change
  const first = asUtc - offsetMs(asUtc, timeZone)
  return asUtc - offsetMs(first, timeZone)
}

function offsetMs(timeMs: number, timeZone: string | undefined): number {
  const parts = new Intl.DateTimeFormat('sv-SE', {
    timeZone: zoneOrUtc(timeZone),
    dateStyle: 'short',
    timeStyle: 'medium',
  }).format(timeMs)
  return Date.parse(`${parts.replace(' ', 'T')}Z`) - Math.floor(timeMs / 1000) * 1000
}
