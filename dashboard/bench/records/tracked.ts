import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { Calibration } from '../../../hub/contract/survey.ts'
import { factLines } from '../fit/fact-lines.ts'

/** One fact of a probe over its calibrations, oldest first. */
export interface Track {
  name: string
  label: string
  unit: string
  at: { atMs: number; number: number; digits: string; isInForce: boolean }[]
}

/** Facts that tell how a probe ages; the last three of a kind are enough to see it. */
const AGEING = [
  'slopePercent',
  'offsetMillivolt',
  'factor',
  'offsetCelsius',
  'spanSignal',
  'slopeMetresPerSecondPerHertz',
  'luxPerSignal',
  'slope',
] as const

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
  return AGEING.flatMap((name) => {
    const at = found.flatMap(({ atMs, isInForce, lines }) => {
      const line = lines.find((each) => each.name === name)
      return line?.number === null || line?.number === undefined || line.digits === null
        ? []
        : [{ atMs, isInForce, number: line.number, digits: line.digits, label: line.label, unit: line.unit }]
    })
    const first = at[0]
    return at.length < 2 || !first ? [] : [{ name, label: first.label, unit: first.unit, at }]
  })
}
