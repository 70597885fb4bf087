import { z } from 'zod'
import { quantityFacts } from '../contract/quantity-facts.ts'

import { shown } from './number-text.ts'
import { type Finding, NO_CONTEXT, type QualityTest } from './quality-test.ts'
import { Span } from './span.ts'
import { requireRising } from './unbroken.ts'

const Month = z.enum(['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'])

const SeasonalSpanConfig = z.strictObject({
  /** by month of the year in UTC, in the unit of the quantity: outside → 3; a month not listed is not evaluated */
  monthlySpans: z.partialRecord(Month, Span),
})
export type SeasonalSpanConfig = z.infer<typeof SeasonalSpanConfig>

/**
 * Outside what this place has shown in this month of other years → 3, never 4. Off until somebody enters spans.
 * @see IOOS QARTOD manuals, climatology test
 */
export const seasonalSpan: QualityTest<SeasonalSpanConfig> = {
  name: 'seasonal-span',
  title: 'Usual for the month',
  explain:
    '20 °C in the soil is nothing special in July and very odd in January. Enter what your site has shown before, month by month.',
  source: 'IOOS QARTOD manuals, climatology test; there are no default spans',
  config: SeasonalSpanConfig,
  defaults: {},
  context: () => NO_CONTEXT,
  run(series, { monthlySpans }) {
    requireRising(series)
    const unit = quantityFacts(series.quantity)?.unit ?? ''
    return series.value.map((value, n): Finding => {
      const month = new Date(series.timeMs[n]!).getUTCMonth() + 1
      const span = monthlySpans[String(month) as z.infer<typeof Month>]
      if (value === null || !span) return 'not evaluated'
      if (value >= span[0] && value <= span[1]) return null
      const text = `${shown(value)} ${unit} is outside what is usual in month ${month}, ${span[0]} to ${span[1]}`
      return { test: 'seasonal-span', flag: 3, text }
    })
  },
}
