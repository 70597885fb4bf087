import { quantityFacts } from '../../contract/quantity-facts.ts'

import type { SpotValue } from '../../contract/spot.ts'
import type { Probe, SurveyFile, Wanted } from '../../contract/survey.ts'

/** How long one quadrat takes where nobody has said: reading a meter, and looking after a probe that stands. */
const CARRIED_MINUTES = 4
const STANDING_MINUTES = 3

/**
 * What is to be measured at every quadrat. A survey that does not say so is read by what it has: a standing probe is
 * wanted where it was ever placed, a carried one at every quadrat.
 */
export function wantedOf(
  survey: SurveyFile,
  spots: readonly SpotValue[],
): { wanted: Wanted[]; isGiven: boolean } {
  if (survey.wanted && survey.wanted.length > 0) return { wanted: survey.wanted, isGiven: true }
  const wanted = new Map<string, Wanted>()
  const measured = new Set(spots.map(({ spot }) => spot.probe))
  for (const probe of survey.probes) {
    if (probe.reference || probe.withdrawn) continue
    const isCarried = probe.isCarried || probe.isTyped || measured.has(probe.id)
    const by = isCarried ? 'carried' : 'standing'
    const key = JSON.stringify([probe.quantity, probe.method, by])
    const places = survey.placements.flatMap(({ probe: id, quadrat }) =>
      id === probe.id && quadrat !== null ? [quadrat] : [],
    )
    if (!isCarried && places.length === 0) continue
    const before = wanted.get(key)
    const quadrats = [...new Set([...(before?.quadrats ?? []), ...places])]
    wanted.set(key, {
      quantity: probe.quantity,
      method: probe.method,
      replicates: isCarried ? 3 : 1,
      by,
      minutes: isCarried ? CARRIED_MINUTES : STANDING_MINUTES,
      ...(isCarried ? {} : { quadrats }),
    })
  }
  return {
    wanted: [...wanted.values()].flatMap((each) => withoutStanding(survey, each, wanted)),
    isGiven: false,
  }
}

/** Where a probe of the same kind stands and logs, a carried meter is not wanted as well. */
function withoutStanding(survey: SurveyFile, each: Wanted, all: ReadonlyMap<string, Wanted>): Wanted[] {
  if (each.by === 'standing') return [each]
  const stands = all.get(JSON.stringify([each.quantity, each.method, 'standing']))?.quadrats
  if (!stands) return [each]
  const quadrats = survey.quadrats.map(({ label }) => label).filter((label) => !stands.includes(label))
  return quadrats.length === 0 ? [] : [{ ...each, quadrats }]
}

/** What is wanted says no more of the method than it must: a probe fits when it agrees in all that is said. */
export function isWantedWay({ quantity, method }: Wanted, made: Pick<Probe, 'quantity' | 'method'>): boolean {
  if (quantity !== made.quantity) return false
  return (['way', 'depthCentimetres', 'heightMetres'] as const).every(
    (part) => method[part] === undefined || method[part] === made.method[part],
  )
}

/** `soil pH`, in the middle of a sentence. */
export function quantityInWords(quantity: string): string {
  const label = quantityFacts(quantity)?.label ?? quantity.replaceAll('_', ' ')
  return label.charAt(0).toLowerCase() + label.slice(1)
}
