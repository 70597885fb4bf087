import type { Method } from '../../hub/contract/quantity.ts'
import type { SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import type { Capture } from './capture.ts'
import type { Meter } from './meters.ts'

/** Replicates at a quadrat when the survey does not say. Common practice, no source. */
const USUAL_REPLICATES = 3

/** One quantity that is to be carried to quadrats. */
export interface WantedHere {
  quantity: string
  method: Method
  replicates: number
  /** null: at all of them */
  quadrats: readonly string[] | null
}

export interface Progress {
  quantity: string
  state: 'none' | 'some' | 'done'
  /** clean replicates, those on this phone that are not sent yet among them */
  got: number
  needed: number
  /** replicates that do not count: not steady, no calibration … */
  notCounted: number
  unsent: number
}

/** What the survey wants of carried meters; without a word about it, what its meters measure. */
export function wantedByCarrying(survey: Pick<SurveyFile, 'wanted'>, meters: readonly Meter[]): WantedHere[] {
  const said = (survey.wanted ?? []).filter(({ by }) => by === 'carried')
  if (said.length > 0)
    return said.map(({ quadrats, ...wanted }) => ({ ...wanted, quadrats: quadrats ?? null }))
  const measured = meters.flatMap(({ probes }) => probes)
  return measured
    .filter(
      ({ quantity, method }, index) =>
        measured.findIndex((other) => other.quantity === quantity && isSameMethod(other.method, method)) ===
        index,
    )
    .map(({ quantity, method }) => ({ quantity, method, replicates: USUAL_REPLICATES, quadrats: null }))
}

/** How often one meter is to be put in at a quadrat. */
export function replicatesFor(wanted: readonly WantedHere[], meter: Meter): number {
  const asked = meter.probes.flatMap(({ quantity, method }) =>
    wanted.filter((each) => isWanted(each, quantity, method)).map(({ replicates }) => replicates),
  )
  return asked.length === 0 ? USUAL_REPLICATES : Math.max(...asked)
}

/** How far a quadrat is, one line a wanted quantity. */
export function progressAt(
  quadrat: string,
  wanted: readonly WantedHere[],
  spots: readonly SpotValue[],
  unsent: readonly Capture[],
  probes: SurveyFile['probes'],
): Progress[] {
  const here = spots.filter(({ spot }) => spot.quadrat === quadrat && !spot.isTakenBack)
  const kept = new Set(spots.map(({ spot }) => spot.id))
  return wanted
    .filter(({ quadrats }) => quadrats === null || quadrats.includes(quadrat))
    .map((each) => {
      const mine = here.filter(({ quantity, method }) => isWanted(each, quantity, method))
      const waiting = unsent.filter((capture) => {
        const probe = probes.find(({ id }) => id === capture.spot.probe)
        const isHere =
          capture.spot.quadrat === quadrat && capture.state === 'waiting' && !kept.has(capture.id)
        return isHere && probe !== undefined && isWanted(each, probe.quantity, probe.method)
      })
      const onPhone = waiting.reduce((sum, capture) => sum + countedOf(capture), 0)
      const got = mine.reduce((sum, { n }) => sum + n, 0) + onPhone
      return {
        quantity: each.quantity,
        state: got >= each.replicates ? 'done' : got > 0 ? 'some' : 'none',
        got,
        needed: each.replicates,
        notCounted: mine.reduce((sum, { replicates, n }) => sum + replicates.length - n, 0),
        unsent: onPhone,
      } as const
    })
}

/** Whether nothing that this meter measures is open at a quadrat any more. */
export function isDoneFor(progress: readonly Progress[], meter: Meter | null): boolean {
  const relevant =
    meter === null
      ? progress
      : progress.filter(({ quantity }) => meter.probes.some((probe) => probe.quantity === quantity))
  return relevant.every(({ state }) => state === 'done')
}

function countedOf({ spot }: Capture): number {
  return spot.typed?.length ?? spot.held?.filter(({ isSteady }) => isSteady).length ?? 0
}

/** A wish without a method takes any. */
function isWanted(
  wanted: Pick<WantedHere, 'quantity' | 'method'>,
  quantity: string,
  method: Method,
): boolean {
  const isAnyMethod = Object.keys(wanted.method).length === 0
  return wanted.quantity === quantity && (isAnyMethod || isSameMethod(wanted.method, method))
}

function isSameMethod(one: Method, other: Method): boolean {
  return (
    one.way === other.way &&
    one.depthCentimetres === other.depthCentimetres &&
    one.heightMetres === other.heightMetres
  )
}
