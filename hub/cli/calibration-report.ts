import {
  expandedUncertainty,
  type Fitted,
  fitCalibration,
  isRefusal,
  type Recipe,
  type Refusal,
} from '../../calibration/index.ts'
import type { QuadratMove } from '../contract/readiness.ts'

const VERDICTS = {
  pass: 'PASS',
  warn: 'PASS WITH WARNING',
  fail: 'FAIL: it will not come into force',
} as const

/** A fitted calibration in words and numbers for a terminal: facts, points, uncertainty, verdict, what to do. */
export function reportCalibration(recipe: Recipe): { text: string; fitted: Fitted | Refusal } {
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) return { text: `No curve can be drawn. ${fitted.code}: ${fitted.message}`, fitted }
  const lines = [`${fitted.kind}, gives ${fitted.unit}`]
  for (const [name, value] of Object.entries(fitted.facts))
    lines.push(`  ${spoken(name).padEnd(34)} ${value === null ? 'cannot be known' : shown(value)}`)
  for (const { signal, reference, residual } of fitted.residuals)
    lines.push(
      `  point ${shown(signal).padStart(12)} → ${shown(reference).padStart(10)}   off by ${shown(residual)}`,
    )
  lines.push(...uncertaintyLines(fitted))
  lines.push(`Verdict: ${VERDICTS[fitted.verdict]}`)
  for (const { text } of fitted.advice) lines.push(`  ${text}`)
  return { text: lines.join('\n'), fitted }
}

/** The budget in the middle of the reference points, where there are any. */
function uncertaintyLines(fitted: Fitted): string[] {
  if (fitted.signalRange === null) return []
  const signal = (fitted.signalRange.low + fitted.signalRange.high) / 2
  const value = fitted.valueAt(signal)
  if (isRefusal(value) || value.standardUncertainty === null) return []
  const lines = [`  at ${shown(signal)} it reads ${shown(value.value)} ${fitted.unit}, uncertainty:`]
  for (const { name, standardUncertainty } of fitted.budget(signal))
    lines.push(`    ${name.padEnd(16)} ${shown(standardUncertainty)}`)
  const expanded = expandedUncertainty(value.standardUncertainty, value.degreesOfFreedom)
  lines.push(`    ${'standard'.padEnd(16)} ${shown(value.standardUncertainty)}`)
  lines.push(`    ${'95 % interval'.padEnd(16)} ±${shown(expanded)}`)
  return lines
}

/** What accepting it would change, quadrat by quadrat. */
export function reportMoves(moves: readonly QuadratMove[]): string {
  if (moves.length === 0) return 'No stored value would change.'
  return [
    'What would change (means of the readings that count as clean):',
    ...moves.map(
      ({ quadrat, quantity, unit, readings, meanBefore, meanAfter }) =>
        `  ${quadrat.padEnd(8)} ${quantity.padEnd(18)} ${meanOf(meanBefore)} → ${meanOf(meanAfter)} ${unit}  (${readings} readings)`,
    ),
  ].join('\n')
}

function meanOf(mean: number | null): string {
  return mean === null ? 'none' : shown(mean)
}

function shown(value: number | string): string {
  return typeof value === 'number' ? String(Number(value.toPrecision(5))) : value
}

/** `slopeMillivoltPerPh` → `slope millivolt per ph`. */
function spoken(name: string): string {
  return name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`)
}
