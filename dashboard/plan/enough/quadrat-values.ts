import type { ChannelNow } from '../../../hub/contract/reading.ts'
import type { SpotValue } from '../../../hub/contract/spot.ts'

/** A quantity with the way it is measured, and its value at each quadrat that has one. */
export interface QuadratValues {
  /** of quantity, way, depth, height and unit: values of unlike methods are never mixed */
  key: string
  quantity: string
  words: string
  unit: string
  values: { quadrat: string; value: number }[]
}

/** A flag this good or not evaluated counts; suspect and fail do not. */
const WORST_FLAG = 2

/**
 * Values by quantity and method: the mean of the newest spot reading of a quadrat, or where there is none the latest
 * clean value of a probe that stands there.
 * @param order  labels in the order of visiting; others come after them
 */
export function quadratValues(
  survey: string,
  spots: readonly SpotValue[],
  channels: readonly ChannelNow[],
  order: readonly string[],
): QuadratValues[] {
  const found = new Map<string, QuadratValues>()
  const add = (quantity: string, method: Method, unit: string, quadrat: string, value: number) => {
    const words = methodWords(method)
    const key = [quantity, words, unit].join('|')
    const list = found.get(key) ?? { key, quantity, words, unit, values: [] }
    found.set(key, list)
    if (list.values.every((each) => each.quadrat !== quadrat)) list.values.push({ quadrat, value })
  }
  for (const { spot, quantity, method, unit, mean } of spots)
    if (mean !== null && !spot.isTakenBack) add(quantity, method, unit, spot.quadrat, mean)
  for (const channel of channels) {
    const [value, flag] = [channel.latest?.[4] ?? null, channel.latest?.[6] ?? 9]
    if (channel.survey !== survey || channel.quadrat === null || channel.quantity === null) continue
    if (value === null || flag > WORST_FLAG || channel.verdict === null || channel.verdict === 'fail')
      continue
    add(channel.quantity, channel.method ?? {}, channel.valueUnit ?? '', channel.quadrat, value)
  }
  const turns = new Map(order.map((label, turn) => [label, turn]))
  const turnOf = (label: string) => turns.get(label) ?? order.length
  for (const { values } of found.values())
    values.sort((one, other) => turnOf(one.quadrat) - turnOf(other.quadrat))
  return [...found.values()].sort((one, other) => other.values.length - one.values.length)
}

interface Method {
  way?: string | undefined
  depthCentimetres?: number | undefined
  heightMetres?: number | undefined
}

function methodWords({ way, depthCentimetres, heightMetres }: Method): string {
  return [
    way ?? '',
    depthCentimetres === undefined ? '' : `${depthCentimetres} cm deep`,
    heightMetres === undefined ? '' : `${heightMetres} m up`,
  ]
    .filter((words) => words !== '')
    .join(', ')
}
