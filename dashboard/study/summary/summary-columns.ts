import type { Method } from '../../../hub/contract/quantity.ts'
import type { QuadratSummary } from '../../../hub/contract/study.ts'
import { fieldQuantities, quantityWords } from '../../quantities.ts'

/** One quantity measured in one way: unlike methods have columns of their own. */
export interface SummaryColumn {
  key: string
  label: string
  /** way, depth, height; empty when nothing is known of them */
  how: string
  unit: string
  ofQuadrat: ReadonlyMap<string, QuadratSummary>
}

/** The columns of the table, in the order of the notebook. */
export function summaryColumns(summaries: readonly QuadratSummary[]): SummaryColumn[] {
  const columns = new Map<string, SummaryColumn & { ofQuadrat: Map<string, QuadratSummary> }>()
  for (const summary of summaries) {
    const { quantity, method, unit } = summary
    const isMixed = summaries.some(
      (other) =>
        other.quantity === quantity &&
        other.unit === unit &&
        other.kind !== summary.kind &&
        howText(other.method) === howText(method),
    )
    // a carried meter and a probe that stands there have columns of their own
    const kind = summary.kind === 'spot' ? 'spot readings' : 'logged'
    const how = [howText(method), isMixed ? kind : ''].filter((part) => part !== '').join(', ')
    const key = `${quantity}\n${how}\n${unit}`
    const column = columns.get(key) ?? {
      key,
      label: quantityWords(quantity).label,
      how,
      unit,
      ofQuadrat: new Map<string, QuadratSummary>(),
    }
    column.ofQuadrat.set(summary.quadrat, summary)
    columns.set(key, column)
  }
  const placeOf = ({ key }: SummaryColumn) => {
    const place = fieldQuantities.findIndex(({ name }) => key.startsWith(`${name}\n`))
    return place < 0 ? fieldQuantities.length : place
  }
  return [...columns.values()].sort((one, other) => placeOf(one) - placeOf(other))
}

/** “direct insertion, 5 cm deep” */
export function howText({ way, depthCentimetres, heightMetres }: Method): string {
  return [
    way ?? '',
    depthCentimetres === undefined ? '' : `${depthCentimetres} cm deep`,
    heightMetres === undefined ? '' : `${heightMetres} m high`,
  ]
    .filter((part) => part !== '')
    .join(', ')
}
