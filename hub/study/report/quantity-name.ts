import type { Method } from '../../contract/quantity.ts'
import { quantityFacts } from '../../contract/quantity-facts.ts'
import { methodText } from '../factors.ts'

/** “soil moisture”; a quantity of the class's own is written as its name, with spaces. */
export function quantityLabel(quantity: string): string {
  return quantityFacts(quantity)?.label ?? quantity.replaceAll('_', ' ')
}

/** “Soil pH (direct, 5 cm deep)”: depth and height always, because unlike ones are never compared. */
export function quantityHow(quantity: string, method: Method): string {
  const how = methodText(method).replaceAll(/(\d) (cm|m) /g, '$1\u00a0$2 ')
  return how === '' ? quantityLabel(quantity) : `${quantityLabel(quantity)} (${how})`
}
