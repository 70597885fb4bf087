import { quantityFacts } from '../../contract/quantity-facts.ts'

import { methodText } from '../factors.ts'
import { methodKey } from '../summary/collect.ts'
import type { CompletenessPicture } from './completeness-matrix.ts'
import type { PictureMaterial } from './picture-material.ts'

/** Used and received, quadrat by quantity and way of measuring; or why there is nothing to draw. */
export function completenessOfStudy({ summary }: PictureMaterial): CompletenessPicture | string {
  const keyOf = (of: { quantity: string; method: Parameters<typeof methodKey>[0] }) =>
    `${of.quantity}\n${methodKey(of.method)}`
  const columns = new Map(
    summary.summaries.map((each) => {
      const label = quantityFacts(each.quantity)?.label ?? each.quantity
      const how = methodText(each.method)
      return [keyOf(each), how === '' ? label : `${label}, ${how}`]
    }),
  )
  if (columns.size === 0) return 'There are no clean values yet.'
  return {
    columns: [...columns.values()],
    rows: summary.quadrats.map(({ label }) => ({
      quadrat: label,
      cells: [...columns.keys()].map((key) => {
        const here = summary.summaries.filter((each) => each.quadrat === label && keyOf(each) === key)
        if (here.length === 0) return null
        return {
          used: here.reduce((sum, { n }) => sum + n, 0),
          received: here.reduce((sum, { received }) => sum + received, 0),
        }
      }),
    })),
  }
}
