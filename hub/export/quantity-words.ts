import { quantityFacts } from '../contract/quantity-facts.ts'

/** A quantity within a sentence: `soil_ph` is “soil pH”. */
export function quantityWords(name: string): string {
  const label = quantityFacts(name)?.label
  return label === undefined ? name.replaceAll('_', ' ') : label.charAt(0).toLowerCase() + label.slice(1)
}
