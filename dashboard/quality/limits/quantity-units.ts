import type { QualityTestListed } from '../../../hub/contract/quality.ts'

/** The unit in which the limits of a quantity are stored, as the tests with defaults for it say. */
export function unitFinder(tests: readonly QualityTestListed[]): (quantity: string) => string {
  const units = new Map<string, string>()
  for (const { defaults } of tests)
    for (const [quantity, { unit }] of Object.entries(defaults)) if (unit !== '') units.set(quantity, unit)
  return (quantity) => units.get(quantity) ?? ''
}
