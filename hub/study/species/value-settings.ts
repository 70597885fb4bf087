import type { SpeciesAnswers } from '../../contract/species.ts'
import { isCross, readNumber, type ValueSettings } from './read-value.ts'
import type { SettledPair } from './settle-twice.ts'

/** A stand-in for “+” and “<1”, %: common practice, no source. The answer `trace` replaces it. */
export const TRACE_PERCENT = 0.5

/** How this table’s cells are to be read: from the answers, and from what else stands in it (a cross among ticks). */
export function valueSettings(pairs: readonly SettledPair[], answers: SpeciesAnswers): ValueSettings {
  const written = pairs.flatMap(({ entries }) => entries.map(({ cell }) => cell.text))
  const hasTicks = written.some((text) => /[✓✔☑]/.test(text))
  const saidCross = answers['cross'] === 'present' || answers['cross'] === 'absent' ? answers['cross'] : null
  const isPlainCross = written.some(isCross) && !hasTicks
  const trace = readNumber(answers['trace'] ?? '')
  const outOf = readNumber(answers['out-of'] ?? '')
  return {
    tracePercent: trace !== null && trace > 0 && trace <= 5 ? trace : TRACE_PERCENT,
    outOf: outOf !== null && Number.isInteger(outOf) && outOf > 0 ? outOf : null,
    cross: saidCross ?? (isPlainCross ? 'present' : null),
  }
}
