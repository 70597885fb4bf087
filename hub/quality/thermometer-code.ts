import { z } from 'zod'
import { shown } from './number-text.ts'
import type { Finding, QualityTest, Series, Surroundings } from './quality-test.ts'
import { requireRising } from './unbroken.ts'

const ThermometerCodeConfig = z.strictObject({
  /** what libraries give when no sensor answers */
  noAnswerCelsius: z.number(),
  /** what the sensor's register holds before its first conversion */
  powerOnCelsius: z.number(),
  /** a neighbour this close to the power-on value makes it a real temperature */
  realWithinCelsius: z.number().positive(),
  neighbourWithinMs: z.number().positive(),
  /** a start-up this short a time before the reading makes it the first after power-up */
  startedWithinMs: z.number().positive(),
})
export type ThermometerCodeConfig = z.infer<typeof ThermometerCodeConfig>

/** Steps of the 16-bit word per °C. */
const WORD_PER_CELSIUS = 16

/**
 * Numbers that a digital thermometer or its library sends instead of a temperature: −127 always, and exactly 85.0 when
 * it is the first after power-up or far from its neighbours. A real 85.0 between 84.6 and 85.3 is left alone.
 * @see DS18B20 data sheet: power-on value +85 °C; −127 is common practice of libraries, no source
 */
export const thermometerCode: QualityTest<ThermometerCodeConfig> = {
  name: 'thermometer-code',
  title: 'Code instead of a temperature',
  explain:
    'The sensor says −127 when nobody answers on the wire, and 85 when it has just woken up and not measured yet. In soil at 12 °C that is easy to see; in a kettle, 85 can be true, so its neighbours are asked.',
  source: 'DS18B20 data sheet for 85 °C; the rest is common practice, no source',
  config: ThermometerCodeConfig,
  defaults: {
    soil_temperature: {
      noAnswerCelsius: -127,
      powerOnCelsius: 85,
      realWithinCelsius: 5,
      neighbourWithinMs: 600_000,
      startedWithinMs: 60_000,
    },
  },
  context: ({ neighbourWithinMs, startedWithinMs }) => ({
    ms: Math.max(neighbourWithinMs, startedWithinMs),
    readings: 0,
  }),
  run(series, config, around) {
    requireRising(series)
    const celsius = sentCelsius(series)
    const neighbours = nearestReal(celsius, config)
    return celsius.map((here, n): Finding => {
      if (Number.isNaN(here)) return 'not evaluated'
      if (here === config.noAnswerCelsius) return found(`${here} is the code for “no sensor answers”`)
      if (here !== config.powerOnCelsius) return null
      if (isFirstAfterStart(series, n, config, around))
        return found(`exactly ${here} right after power-up: the sensor had not measured yet`)
      const values = [neighbours.before[n]!, neighbours.after[n]!]
        .filter(
          (at) => at !== -1 && Math.abs(series.timeMs[at]! - series.timeMs[n]!) <= config.neighbourWithinMs,
        )
        .map((at) => celsius[at]!)
      if (values.length === 0) return 'not evaluated'
      if (values.some((value) => Math.abs(value - here) <= config.realWithinCelsius)) return null
      return found(
        `exactly ${here} while its neighbours are at ${values.map(shown).join(' and ')}: the power-on value`,
      )
    })
  },
}

function found(text: string): Finding {
  return { test: 'thermometer-code', flag: 4, text }
}

/**
 * What the sensor itself sent, before any offset; NaN when the signal is neither °C nor its 16-bit word. Counts are
 * taken for the word only where the value agrees: a thermistor sends counts too.
 */
function sentCelsius({ signal, value, signalUnit }: Series): number[] {
  if (signalUnit === 'Cel') return [...signal]
  if (signalUnit !== 'count') return signal.map(() => Number.NaN)
  return signal.map((word, n) => {
    const celsius = word / WORD_PER_CELSIUS
    return Math.abs((value[n] ?? Number.NaN) - celsius) <= 5 ? celsius : Number.NaN
  })
}

/** Indexes of the nearest readings that are no codes, −1 for none. */
function nearestReal(
  celsius: readonly number[],
  config: ThermometerCodeConfig,
): { before: Int32Array; after: Int32Array } {
  const isReal = (n: number) =>
    celsius[n] !== config.noAnswerCelsius && celsius[n] !== config.powerOnCelsius && !Number.isNaN(celsius[n])
  const before = new Int32Array(celsius.length)
  const after = new Int32Array(celsius.length)
  for (let n = 0, last = -1; n < celsius.length; n++) {
    before[n] = last
    if (isReal(n)) last = n
  }
  for (let n = celsius.length - 1, next = -1; n >= 0; n--) {
    after[n] = next
    if (isReal(n)) next = n
  }
  return { before, after }
}

/** Did the board start between the reading before and this one? */
function isFirstAfterStart(
  { timeMs }: Series,
  n: number,
  { startedWithinMs }: ThermometerCodeConfig,
  around: Surroundings,
): boolean {
  const sinceLastMs = n === 0 ? startedWithinMs : timeMs[n]! - timeMs[n - 1]!
  return around.sameBoardRestarted(timeMs[n]!, Math.min(startedWithinMs, sinceLastMs)) === true
}
