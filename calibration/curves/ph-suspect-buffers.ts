import { fitLine } from '../fit/line.ts'
import type { Advice, Verdict } from '../fitted.ts'
import type { PhCriteria } from '../recipe.ts'
import { bufferPh } from '../references/buffer-ph.ts'
import { isRefusal } from '../refusal.ts'
import { ISOPOTENTIAL_PH, nernstSlope } from './nernst.ts'
import type { ResolvedPhPoint } from './ph-points.ts'

/** Points warmer or colder than each other by more than this were not measured side by side, °C. */
const SAME_TEMPERATURE_CELSIUS = 5

/** pH 7 → 10 losing more than this against pH 4 → 7, in percent of slope, points at the alkaline buffer. */
const ALKALINE_LOSS_PERCENT = 4

/** Bottles that are taken for one another: the 4.00 / 7.00 / 10.01 and the 4.01 / 6.86 / 9.18 families. */
const MISTAKEN_FOR: ReadonlyArray<{ set: string; buffer: string }> = [
  { set: 'nist', buffer: 'phosphate' },
  { set: 'nist', buffer: 'borax' },
  { set: 'technical', buffer: '7' },
  { set: 'technical', buffer: '10' },
]

interface Seen {
  fitPoints: readonly ResolvedPhPoint[]
  slopePercent: number | null
  offsetMillivolt: number
}

/** Looks for mistakes made with the buffers rather than faults of the electrode. */
export function suspectBuffers(seen: Seen, criteria: PhCriteria): { verdict: Verdict; advice: Advice[] } {
  const advice: Advice[] = []
  const temperatures = seen.fitPoints.map((point) => point.given.temperatureCelsius)
  if (Math.max(...temperatures) - Math.min(...temperatures) > SAME_TEMPERATURE_CELSIUS) {
    advice.push({
      code: 'temperatures-differ',
      text: 'The buffers were at different temperatures. Let them stand side by side, measure each, and check what was typed.',
    })
  }
  const contaminated = alkalineBufferLow(seen.fitPoints, criteria)
  if (contaminated !== null) advice.push(contaminated)
  const mistaken = otherSetFitsBetter(seen, criteria)
  if (mistaken !== null) advice.push(mistaken)
  return { verdict: advice.length > 0 ? 'warn' : 'pass', advice }
}

/** pH 10 buffer takes up carbon dioxide from the air and falls; 4 and 7 keep. */
function alkalineBufferLow(points: readonly ResolvedPhPoint[], criteria: PhCriteria): Advice | null {
  const rising = [...points].sort((a, b) => a.ph - b.ph)
  const [acid, neutral, alkaline] = rising
  if (rising.length !== 3 || acid === undefined || neutral === undefined || alkaline === undefined)
    return null
  if (alkaline.ph < 9 || neutral.ph > 8) return null
  const lower = pairPercent(acid, neutral)
  const upper = pairPercent(neutral, alkaline)
  if (lower < criteria.slopePassLowPercent || lower > criteria.slopePassHighPercent) return null
  if (lower - upper < ALKALINE_LOSS_PERCENT) return null
  return {
    code: 'alkaline-buffer-stale',
    text:
      `From pH ${acid.ph.toFixed(2)} to ${neutral.ph.toFixed(2)} the slope is good (${lower.toFixed(1)} %), up to pH ${alkaline.ph.toFixed(2)} it is low ` +
      `(${upper.toFixed(1)} %). The alkaline buffer has probably taken up carbon dioxide from the air: open a fresh one.`,
  }
}

function pairPercent(one: ResolvedPhPoint, other: ResolvedPhPoint): number {
  return (
    (100 * (other.electrodeMillivolt - one.electrodeMillivolt)) / (other.idealMillivolt - one.idealMillivolt)
  )
}

/** A slope or offset out of band that becomes good when one bottle is read as its look-alike. */
function otherSetFitsBetter(seen: Seen, criteria: PhCriteria): Advice | null {
  if (seen.slopePercent === null || isGood(seen.slopePercent, seen.offsetMillivolt, criteria)) return null
  for (const [index, point] of seen.fitPoints.entries()) {
    for (const other of MISTAKEN_FOR) {
      const temperature = point.given.temperatureCelsius
      const ph = bufferPh(other.set, other.buffer, temperature)
      if (isRefusal(ph) || Math.abs(ph.ph - point.ph) < 0.05 || Math.abs(ph.ph - point.ph) > 1) continue
      const x = seen.fitPoints.map((each) => each.idealMillivolt)
      x[index] = -nernstSlope(temperature) * (ph.ph - ISOPOTENTIAL_PH)
      const line = fitLine(
        x,
        seen.fitPoints.map((each) => each.electrodeMillivolt),
      )
      // nearer to the theory than the pass band alone, so that a tired electrode is not excused
      if (isRefusal(line) || line.slope < 0.97 || line.slope > 1.015) continue
      if (Math.abs(line.intercept) > criteria.offsetPassMillivolt) continue
      // reading the right bottle must also bring the offset nearer to nothing, or it is the slope alone that is tired
      if (Math.abs(line.intercept) >= Math.abs(seen.offsetMillivolt)) continue
      return {
        code: 'buffer-set-doubtful',
        text: `Is the bottle entered as pH ${point.ph.toFixed(2)} really the ${ph.ph.toFixed(2)} one? With that value the slope would be ${(100 * line.slope).toFixed(1)} %. Read the label.`,
      }
    }
  }
  return null
}

function isGood(slopePercent: number, offsetMillivolt: number, criteria: PhCriteria): boolean {
  return (
    slopePercent >= criteria.slopePassLowPercent &&
    slopePercent <= criteria.slopePassHighPercent &&
    Math.abs(offsetMillivolt) <= criteria.offsetPassMillivolt
  )
}
