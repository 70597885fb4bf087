import type { ChartMark, TimeSpan } from '../contract/reading.ts'
import type { SurveyFile } from '../contract/survey.ts'
import { isNight } from '../quality/sun.ts'

/** Beyond so many days a chart shows no nights: they would be thinner than its lines. */
const NIGHTS_WITHIN_MS = 40 * 86_400_000
const STEP_MS = 10 * 60_000

/** The nights of a site within a span, to ten minutes; none when its position is not known. */
export function nightsWithin(survey: SurveyFile, fromMs: number, toMs: number): TimeSpan[] {
  const { latitude, longitude } = survey.site
  if (latitude === undefined || longitude === undefined || toMs - fromMs > NIGHTS_WITHIN_MS) return []
  const nights: TimeSpan[] = []
  let began: number | null = null
  for (let timeMs = fromMs; ; timeMs = Math.min(timeMs + STEP_MS, toMs)) {
    const isDark = isNight(latitude, longitude, timeMs)
    if (isDark) began ??= timeMs
    if (began !== null && (!isDark || timeMs >= toMs)) {
      nights.push({ fromMs: began, toMs: timeMs })
      began = null
    }
    if (timeMs >= toMs) return nights
  }
}

/** What was done to the probes of a quadrat within a span: calibrated, placed, lifted, decided on by hand. */
export function marksWithin(survey: SurveyFile, quadrat: string, fromMs: number, toMs: number): ChartMark[] {
  const isWithin = (text: string) => Date.parse(text) >= fromMs && Date.parse(text) < toMs
  const here = new Set(survey.placements.filter((each) => each.quadrat === quadrat).map(({ probe }) => probe))
  const quantityOf = new Map(survey.probes.map(({ id, quantity }) => [id, quantity]))
  const marks: ChartMark[] = []
  const mark = (probe: string, at: string, kind: ChartMark['kind'], text: string) => {
    if (here.has(probe) && isWithin(at))
      marks.push({ timeMs: Date.parse(at), kind, quantity: quantityOf.get(probe) ?? '', probe, text })
  }
  for (const { id, probe, validFrom, withdrawn } of survey.calibrations)
    mark(
      probe,
      validFrom,
      'calibration',
      withdrawn ? `calibration ${id}, withdrawn since` : `calibration ${id}`,
    )
  for (const { probe, quadrat: where, from, to } of survey.placements) {
    mark(probe, from, 'placement', where === null ? `${probe} lifted` : `${probe} placed at ${where}`)
    if (to !== undefined && where === quadrat) mark(probe, to, 'placement', `${probe} taken from ${where}`)
  }
  return marks.sort((a, b) => a.timeMs - b.timeMs)
}
