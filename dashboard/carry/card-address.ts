import { placeOf } from '../router.ts'

/**
 * Where a card leads: the quadrat of the address on it, when that is a card of this survey. A card printed under another
 * address of the hub counts as well.
 */
export function quadratOnCard(text: string, survey: string): string | null {
  let path: string
  try {
    path = new URL(text.trim()).pathname
  } catch {
    return null
  }
  const here = placeOf(path)
  if (here.page !== 'chapter' || here.chapter !== 'carry' || here.survey !== survey) return null
  return here.rest[0] ?? null
}
