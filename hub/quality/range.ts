import { z } from 'zod'
import type { FlagReason } from '../contract/flag.ts'
import { knownQuantities, quantityFacts } from '../contract/quantity-facts.ts'

import { shown } from './number-text.ts'
import { type Finding, NO_CONTEXT, type QualityTest } from './quality-test.ts'
import { Span } from './span.ts'
import { requireRising } from './unbroken.ts'

const RangeConfig = z
  .strictObject({
    /** in the unit of the quantity: outside → 4 */
    failSpan: Span,
    /** in the unit of the quantity: outside → 3; null: none */
    suspectSpan: Span.nullable(),
    /** by SenML unit of the signal: a raw signal outside → 4. None by default: only the wiring can say */
    signalSpans: z.record(z.string(), Span),
  })
  .refine(
    ({ failSpan, suspectSpan }) =>
      suspectSpan === null || (suspectSpan[0] >= failSpan[0] && suspectSpan[1] <= failSpan[1]),
    'what is suspect lies inside what fails',
  )
export type RangeConfig = z.infer<typeof RangeConfig>

const defaults: Readonly<Record<string, RangeConfig>> = Object.fromEntries(
  knownQuantities.map(({ name, failSpan, suspectSpan }) => [
    name,
    { failSpan, suspectSpan, signalSpans: {} },
  ]),
)

/**
 * Outside what the sensor could read → 4; outside what is likely in the field → 3. A value equal to a limit passes.
 * @see IOOS QARTOD manuals, gross range test (sensor span and user span)
 */
export const range: QualityTest<RangeConfig> = {
  name: 'range',
  title: 'Possible and likely',
  explain:
    'A soil pH of 15 cannot be: either the probe or the wire is broken. One of 2.5 can be, but hardly ever is: look twice.',
  source: 'IOOS QARTOD manuals, gross range test; the spans are common practice, no source',
  config: RangeConfig,
  defaults,
  context: () => NO_CONTEXT,
  run(series, config) {
    requireRising(series)
    const signalSpan = config.signalSpans[series.signalUnit]
    return series.value.map((value, n): Finding => {
      const signal = series.signal[n]!
      if (signalSpan && (signal < signalSpan[0] || signal > signalSpan[1]))
        return reason(
          4,
          `the signal ${shown(signal)} ${series.signalUnit} is outside what is possible, ${signalSpan[0]} to ${signalSpan[1]}`,
        )
      return value === null ? 'not evaluated' : judge(value, series.quantity, config)
    })
  },
}

/** The same test on one value with the default spans. */
export function testRange(quantity: string, value: number): FlagReason | null {
  const config = defaults[quantity]
  return config ? judge(value, quantity, config) : null
}

function judge(value: number, quantity: string, { failSpan, suspectSpan }: RangeConfig): FlagReason | null {
  const shownValue = () => `${shown(value)} ${quantityFacts(quantity)?.unit ?? ''}`
  if (value < failSpan[0] || value > failSpan[1])
    return reason(4, `${shownValue()} is outside what is possible, ${failSpan[0]} to ${failSpan[1]}`)
  if (suspectSpan !== null && (value < suspectSpan[0] || value > suspectSpan[1]))
    return reason(3, `${shownValue()} is outside what is likely, ${suspectSpan[0]} to ${suspectSpan[1]}`)
  return null
}

function reason(flag: 3 | 4, text: string): FlagReason {
  return { test: 'range', flag, text }
}
