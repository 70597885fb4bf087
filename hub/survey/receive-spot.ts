import { rfc3339 } from '../clock.ts'
import type { AddSpot, AmendSpot, HeldReplicate, Spot } from '../contract/spot.ts'
import type { Probe, Quadrat, SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'

/** Longer than any insertion is held; a phone that claims more has lost count. Common practice, no source. */
const HELD_AT_MOST_MS = 15 * 60_000
/** How far a time may lie ahead of the hub's clock: what passes while a message is on its way. */
const AHEAD_AT_MOST_MS = 5_000
/** A phone's clock that differs by less than this is not said to differ. */
const SAME_CLOCK_MS = 2_000
/** A typed value lasts one millisecond: it is a moment. */
const MOMENT_MS = 1

/**
 * Makes a spot reading of what a phone sent, or refuses it with what is wrong.
 * @param others  spot readings kept already, of every survey
 * @param receivedMs  hub time
 * @throws HubError when the quadrat or probe is not known, was lifted before, or the probe was elsewhere at that time
 */
export function receiveSpot(
  survey: SurveyFile,
  sent: AddSpot,
  others: readonly Spot[],
  receivedMs: number,
): Spot {
  const quadrat = survey.quadrats.find(({ label }) => label === sent.quadrat)
  if (!quadrat) throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no quadrat "${sent.quadrat}".`)
  const probe = survey.probes.find(({ id }) => id === sent.probe)
  if (!probe) throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no probe "${sent.probe}".`)
  const aheadMs = Date.parse(sent.sentAt) - receivedMs
  const replicates = sent.typed
    ? typedMoments(sent, probe, others, receivedMs)
    : heldSpans(sent, probe, receivedMs)
  refuseLifted(quadrat, replicates)
  refuseElsewhere(sent, replicates, others)
  return {
    id: sent.id,
    survey: survey.id,
    quadrat: sent.quadrat,
    probe: sent.probe,
    ...(sent.by === undefined ? {} : { by: sent.by }),
    ...(sent.note === undefined ? {} : { note: sent.note }),
    receivedAt: rfc3339(receivedMs),
    phoneAheadSeconds: Math.abs(aheadMs) < SAME_CLOCK_MS ? 0 : aheadMs / 1000,
    isTyped: sent.typed !== undefined,
    replicates,
    isTakenBack: false,
    amendments: [],
  }
}

/** Whether what was sent is what is kept under its id: the same capture, sent again. */
export function isSameCapture(kept: Spot, sent: AddSpot): boolean {
  return (
    kept.probe === sent.probe &&
    (kept.quadrat === sent.quadrat || kept.amendments.length > 0) &&
    kept.replicates.length === (sent.typed ?? sent.held)?.length
  )
}

/** A change made afterwards: the spot reading as it counts now, with the change on record. */
export function amendSpot(survey: SurveyFile, spot: Spot, wish: AmendSpot, nowMs: number): Spot {
  if (wish.quadrat === undefined && wish.isTakenBack === undefined)
    throw new HubError('E_BODY', 'Say another quadrat, or whether it is to count.')
  if (wish.quadrat !== undefined && !survey.quadrats.some(({ label }) => label === wish.quadrat))
    throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no quadrat "${wish.quadrat}".`)
  return {
    ...spot,
    quadrat: wish.quadrat ?? spot.quadrat,
    isTakenBack: wish.isTakenBack ?? spot.isTakenBack,
    amendments: [...spot.amendments, { ...wish, at: rfc3339(nowMs) }],
  }
}

function heldSpans({ held, typed }: AddSpot, probe: Probe, receivedMs: number): HeldReplicate[] {
  if (!held || typed || probe.isTyped)
    throw new HubError(
      'E_BODY',
      probe.isTyped
        ? `"${probe.id}" has no connection: send the values typed in.`
        : 'Send either held replicates or typed ones.',
    )
  const inOrder = held.toSorted((one, other) => Date.parse(one.from) - Date.parse(other.from))
  for (const [index, { from, to }] of inOrder.entries()) {
    const lastsMs = Date.parse(to) - Date.parse(from)
    const before = inOrder[index - 1]
    if (lastsMs <= 0 || lastsMs > HELD_AT_MOST_MS)
      throw new HubError('E_SPOT_TIME', `Replicate ${index + 1} is held from ${from} to ${to}.`)
    if (Date.parse(to) > receivedMs + AHEAD_AT_MOST_MS)
      throw new HubError('E_SPOT_TIME', `Replicate ${index + 1} ends at ${to}, which has not come yet.`)
    if (before && Date.parse(from) < Date.parse(before.to))
      throw new HubError('E_SPOT_TIME', `Replicates ${index} and ${index + 1} overlap.`)
  }
  return inOrder
}

/**
 * Typed values at the moments they were typed, by how long before sending that was: the phone's clock may be wrong, but
 * not so much in an hour. Two at the same moment are put a millisecond apart.
 */
function typedMoments(
  { typed, held, sentAt }: AddSpot,
  probe: Probe,
  others: readonly Spot[],
  receivedMs: number,
): HeldReplicate[] {
  if (held || !probe.isTyped)
    throw new HubError(
      'E_BODY',
      probe.isTyped
        ? 'Send either held replicates or typed ones.'
        : `"${probe.id}" is connected: its readings come from the board, not from a keyboard.`,
    )
  const taken = new Set(
    others.flatMap((spot) =>
      spot.probe === probe.id ? spot.replicates.map(({ from }) => Date.parse(from)) : [],
    ),
  )
  return (typed ?? []).map(({ at }, index) => {
    const agoMs = Date.parse(sentAt) - Date.parse(at)
    if (agoMs < 0) throw new HubError('E_SPOT_TIME', `Value ${index + 1} was typed after it was sent.`)
    let atMs = receivedMs - agoMs
    while (taken.has(atMs)) atMs++
    taken.add(atMs)
    return { from: rfc3339(atMs), to: rfc3339(atMs + MOMENT_MS), isSteady: true }
  })
}

function refuseLifted({ label, lifted }: Quadrat, replicates: readonly HeldReplicate[]): void {
  const late = lifted && replicates.find(({ to }) => Date.parse(to) > Date.parse(lifted.at))
  if (late)
    throw new HubError(
      'E_QUADRAT_LIFTED',
      `The frame of ${label} was taken up at ${lifted.at}, this was measured at ${late.from}.`,
    )
}

/** One probe cannot be at two quadrats at once. */
function refuseElsewhere(sent: AddSpot, replicates: readonly HeldReplicate[], others: readonly Spot[]): void {
  for (const other of others) {
    if (other.probe !== sent.probe || other.id === sent.id || other.isTakenBack) continue
    const clash = other.replicates.find((held) =>
      replicates.some(
        ({ from, to }) => Date.parse(held.from) < Date.parse(to) && Date.parse(from) < Date.parse(held.to),
      ),
    )
    if (clash)
      throw new HubError(
        'E_SPOT_ELSEWHERE',
        `"${sent.probe}" was held at ${other.quadrat} from ${clash.from} to ${clash.to}${other.by ? ` by ${other.by}` : ''}.`,
      )
  }
}
