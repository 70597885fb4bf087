import { z } from 'zod'
import type { QualityTestListed } from '../contract/quality.ts'
import { quantityFacts } from '../contract/quantity-facts.ts'

import { QUALITY_TESTS } from '../quality/tests.ts'

/** Every quality test in words, with its limits by quantity and their schema, for the page that edits them. */
export function qualityTestsListed(): QualityTestListed[] {
  return QUALITY_TESTS.map(({ name, title, explain, source, defaults, config }) => ({
    name,
    title,
    explain,
    source,
    defaults: Object.fromEntries(
      Object.entries(defaults).map(([quantity, limits]) => [
        quantity,
        { limits, unit: quantityFacts(quantity)?.unit ?? '' },
      ]),
    ),
    schema: z.toJSONSchema(config, { io: 'input' }),
  }))
}
