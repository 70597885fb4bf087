import type { Method } from '../../../hub/contract/quantity.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'

/** Two probes of one quantity that stand at one quadrat at the same time. */
export interface Companions {
  quadrat: string
  quantity: string
  probes: [string, string]
  fromMs: number
  /** null: they still do */
  toMs: number | null
  /** by the same method: then their readings are thrown together */
  isSameMethod: boolean
}

/** All such pairs of a survey, one entry a pair and overlap, latest first. */
export function companionsOf(survey: Pick<SurveyFile, 'placements' | 'probes'>): Companions[] {
  const probes = new Map(survey.probes.map((probe) => [probe.id, probe]))
  const placed = survey.placements.flatMap(({ probe: id, quadrat, from, to }) => {
    const probe = probes.get(id)
    const toMs = to === undefined ? Infinity : Date.parse(to)
    return probe && quadrat !== null ? [{ probe, quadrat, fromMs: Date.parse(from), toMs }] : []
  })
  const byPlace = new Map<string, typeof placed>()
  for (const each of placed) {
    const key = `${each.quadrat}\n${each.probe.quantity}`
    byPlace.set(key, [...(byPlace.get(key) ?? []), each])
  }
  const found = [...byPlace.values()].flatMap((there) =>
    there.flatMap((one, index) =>
      there.slice(index + 1).flatMap((other): Companions[] => {
        const fromMs = Math.max(one.fromMs, other.fromMs)
        const toMs = Math.min(one.toMs, other.toMs)
        if (one.probe.id === other.probe.id || fromMs >= toMs) return []
        const [first, second] = one.probe.id < other.probe.id ? [one, other] : [other, one]
        return [
          {
            quadrat: one.quadrat,
            quantity: one.probe.quantity,
            probes: [first.probe.id, second.probe.id],
            fromMs,
            toMs: toMs === Infinity ? null : toMs,
            isSameMethod: methodKey(one.probe.method) === methodKey(other.probe.method),
          },
        ]
      }),
    ),
  )
  return found.sort((one, other) => other.fromMs - one.fromMs)
}

function methodKey({ way, depthCentimetres, heightMetres }: Method): string {
  return JSON.stringify([way, depthCentimetres, heightMetres])
}
