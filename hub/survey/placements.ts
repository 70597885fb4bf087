import type { AmendPlacement, PlaceProbe } from '../contract/changes.ts'
import type { Placement, Probe, SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import { splitPlacement } from './split-placement.ts'

type Placed = ReturnType<typeof Placement.parse>

/** Corrects one placement that was made before; the others of its probe stay as they are. */
export function amendPlacement(survey: SurveyFile, wish: AmendPlacement): SurveyFile {
  const beginsMs = Date.parse(wish.begins)
  const index = survey.placements.findIndex(
    (placement) => placement.probe === wish.probe && Date.parse(placement.from) === beginsMs,
  )
  const placement = survey.placements[index]
  if (!placement)
    throw new HubError('E_NOT_FOUND', `No placement of "${wish.probe}" begins at ${wish.begins}.`)
  if ([wish.set, wish.split, wish.remove].filter((each) => each !== undefined).length !== 1)
    throw new HubError(
      'E_BODY',
      'Say either what to set, or where to cut, or that the placement is to be removed.',
    )
  if (wish.split) return splitPlacement(survey, index, wish.split)
  if (wish.remove) return { ...survey, placements: survey.placements.toSpliced(index, 1) }
  const { quadrat, from, to } = wish.set!
  const changed: Placed = {
    ...placement,
    ...(quadrat === undefined ? {} : { quadrat }),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined || to === null ? {} : { to }),
  }
  if (to === null) delete changed.to
  return { ...survey, placements: survey.placements.with(index, changed) }
}

/** From when on something is different after a correction: what was there before need not be asked about. */
export function beginsToChange({ begins, set, split }: AmendPlacement): string {
  return split?.part === 'after' ? split.at : (set?.from ?? begins)
}

/**
 * What a person is asked before a probe is placed: another probe of the same quantity and method there at that time, or
 * the probe placed by another survey. One that moves within its survey leaves its old place, so that is not asked.
 * @param after  the survey as it would be
 * @param others  the other surveys of the hub
 * @returns questions in words; empty when nothing is odd
 */
export function placementQuestions(
  after: SurveyFile,
  others: readonly SurveyFile[],
  probeId: string,
  fromMs: number,
): string[] {
  const placement = placedAt(after, probeId, fromMs)
  const probe = after.probes.find(({ id }) => id === probeId)
  if (!probe || !placement || placement.quadrat === null) return []
  const span = { fromMs, toMs: endOf(placement) }
  const there = after.placements.filter(
    (other) =>
      other.probe !== probeId &&
      other.quadrat === placement.quadrat &&
      overlaps(other, span) &&
      isAlike(
        probe,
        after.probes.find(({ id }) => id === other.probe),
      ),
  )
  const elsewhere = others.flatMap((survey) =>
    survey.placements
      .filter((other) => other.probe === probeId && other.quadrat !== null && overlaps(other, span))
      .map((other) => `Survey "${survey.title}" has ${probeId} at ${other.quadrat} since ${other.from}.`),
  )
  const asked = there.map(
    (other) =>
      `${other.probe} measures ${probe.quantity} the same way at ${placement.quadrat} since ${other.from}.`,
  )
  return [...new Set([...asked, ...elsewhere])]
}

/** @throws HubError with the questions, unless the person has said that it is meant so */
export function askFirst(questions: readonly string[], isSure: boolean | undefined): void {
  if (questions.length > 0 && !isSure) throw new HubError('E_ASK', questions.join(' '))
}

/** The id of the probe that is to be placed, whether it comes whole or by name. */
export function probeToPlace({ probe }: PlaceProbe): string {
  return typeof probe === 'string' ? probe : probe.id
}

/** Placements of one probe that are at two quadrats at once, as places in the list. */
export function overlappingPlacements(placements: readonly Placed[]): { index: number; other: Placed }[] {
  const byProbe = new Map<string, { placement: Placed; index: number }[]>()
  for (const [index, placement] of placements.entries()) {
    const list = byProbe.get(placement.probe) ?? []
    list.push({ placement, index })
    byProbe.set(placement.probe, list)
  }
  return [...byProbe.values()].flatMap((list) => {
    list.sort((one, other) => Date.parse(one.placement.from) - Date.parse(other.placement.from))
    return list.flatMap(({ placement, index }, place) => {
      const before = list[place - 1]?.placement
      if (!before || before.quadrat === placement.quadrat) return []
      const isSameMoment = Date.parse(before.from) === Date.parse(placement.from)
      const isOver = before.to === undefined || Date.parse(before.to) <= Date.parse(placement.from)
      return isOver && !isSameMoment ? [] : [{ index, other: before }]
    })
  })
}

function placedAt(survey: SurveyFile, probe: string, timeMs: number): Placed | undefined {
  return survey.placements.findLast(
    (placement) =>
      placement.probe === probe && Date.parse(placement.from) <= timeMs && timeMs < endOf(placement),
  )
}

function endOf({ to }: Placed): number {
  return to === undefined ? Number.POSITIVE_INFINITY : Date.parse(to)
}

function overlaps(placement: Placed, { fromMs, toMs }: { fromMs: number; toMs: number }): boolean {
  return Date.parse(placement.from) < toMs && fromMs < endOf(placement)
}

function isAlike(one: Probe, other: Probe | undefined): boolean {
  if (one.quantity !== other?.quantity) return false
  const text = ({ way, depthCentimetres, heightMetres }: Probe['method']) =>
    JSON.stringify([way, depthCentimetres, heightMetres])
  return text(one.method) === text(other.method)
}
