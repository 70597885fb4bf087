import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { Calibration } from '../../../hub/contract/survey.ts'
import { factLines } from '../fit/fact-lines.ts'

/** One fact of a probe over its calibrations, oldest first. */
export interface Track {
  name: string
  label: string
  unit: string
  leastSpan: number
  at: { atMs: number; number: number; digits: string; isInForce: boolean }[]
}

/**
 * Facts that tell how a probe ages, and the narrowest span each is drawn over: a difference that means nothing must
 * not look like one. Where the size differs from probe to probe it is a tenth of the fact itself.
 */
const AGEING: readonly { name: string; leastSpan?: number }[] = [
  { name: 'slopePercent', leastSpan: 6 },
  { name: 'offsetMillivolt', leastSpan: 12 },
  { name: 'factor', leastSpan: 0.1 },
  { name: 'offsetCelsius', leastSpan: 0.5 },
  { name: 'spanSignal' },
  { name: 'slopeMetresPerSecondPerHertz' },
  { name: 'luxPerSignal' },
  { name: 'slope' },
]

/** What can be followed: facts that two or more calibrations of a probe have. */
export function tracksOf(calibrations: readonly Calibration[]): Track[] {
  const oldestFirst = [...calibrations].sort(
    (one, other) => Date.parse(one.validFrom) - Date.parse(other.validFrom),
  )
  const found = oldestFirst.map((calibration) => {
    const fitted = fitCalibration(calibration.recipe)
    return {
      atMs: Date.parse(calibration.validFrom),
      isInForce: !calibration.withdrawn && !isRefusal(fitted) && fitted.verdict !== 'fail',
      lines: isRefusal(fitted) ? [] : factLines(fitted.facts),
    }
  })
  return AGEING.flatMap(({ name, leastSpan }) => {
    const at = found.flatMap(({ atMs, isInForce, lines }) => {
      const line = lines.find((each) => each.name === name)
      return line?.number === null || line?.number === undefined || line.digits === null
        ? []
        : [{ atMs, isInForce, number: line.number, digits: line.digits, label: line.label, unit: line.unit }]
    })
    const first = at[0]
    if (at.length < 2 || !first) return []
    const { label, unit, number } = first
    return [{ name, label, unit, at, leastSpan: leastSpan ?? Math.max(Math.abs(number) / 10, 1e-9) }]
  })
}
