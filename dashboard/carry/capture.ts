import type { AddSpot, HeldReplicate } from '../../hub/contract/spot.ts'
import type { HeldWindow } from './held-window.ts'

/** A spot reading on this phone that the hub has not confirmed yet. */
export interface Capture {
  id: string
  survey: string
  /** as it is sent, but for the moment of sending */
  spot: Omit<AddSpot, 'sentAt'>
  /** hub time, for the order and to be shown */
  takenMs: number
  quantity: string
  unit: string
  /** what this phone made of the replicates; null: no calibration */
  values: (number | null)[]
  state: 'waiting' | 'refused'
  /** why the hub refused it */
  refusal: { code: string; message: string } | null
}

/** One probe in one insertion. */
export interface DraftPart extends HeldWindow {
  probe: string
  held: HeldReplicate
}

/** A capture in the making: it outlives a reload, and its ids are made at the start so that it is finished once. */
export interface Draft {
  /** survey, quadrat and meter */
  key: string
  survey: string
  quadrat: string
  meter: string
  /** by probe */
  ids: Record<string, string>
  rounds: DraftPart[][]
  /** readings up to this time belong to what was before, UTC ms by the readings’ own times */
  markMs: number
  /** of a meter that is read by eye: what stands in the fields, and when it was typed, by the phone’s clock */
  typed: { text: string; at: string | null }[]
}

export function draftKey(survey: string, quadrat: string, meter: string): string {
  return JSON.stringify([survey, quadrat, meter])
}

export function newDraft(
  place: Pick<Draft, 'survey' | 'quadrat' | 'meter' | 'markMs'>,
  probes: readonly string[],
  newId: () => string,
): Draft {
  return {
    ...place,
    key: draftKey(place.survey, place.quadrat, place.meter),
    ids: Object.fromEntries(probes.map((probe) => [probe, newId()])),
    rounds: [],
    typed: [],
  }
}

/** Keeps one insertion; the next begins after the newest reading in it. */
export function withRound(draft: Draft, round: DraftPart[]): Draft {
  const endMs = Math.max(draft.markMs, ...round.map(({ held }) => Date.parse(held.to) - 1))
  return { ...draft, rounds: [...draft.rounds, round], markMs: endMs }
}

/** Takes the last insertion back. */
export function withoutLastRound(draft: Draft): Draft {
  return { ...draft, rounds: draft.rounds.slice(0, -1) }
}

/** The finished draft as captures, one a probe. */
export function capturesOf(
  draft: Draft,
  by: string | null,
  takenMs: number,
  facts: (probe: string) => { quantity: string; unit: string },
): Capture[] {
  return Object.entries(draft.ids).flatMap(([probe, id]): Capture[] => {
    const parts = draft.rounds.flatMap((round) => round.filter((part) => part.probe === probe))
    if (parts.length === 0) return []
    const spot = { id, quadrat: draft.quadrat, probe, held: parts.map(({ held }) => held) }
    return [
      {
        id,
        survey: draft.survey,
        spot: by === null ? spot : { ...spot, by },
        takenMs,
        ...facts(probe),
        values: parts.map(({ value }) => value),
        state: 'waiting',
        refusal: null,
      },
    ]
  })
}

/**
 * Values that were typed in, as one capture.
 * @param typed  in the unit of the meter, each with its moment by the phone’s clock
 */
export function typedCapture(
  draft: Draft,
  by: string | null,
  takenMs: number,
  facts: { probe: string; quantity: string; unit: string },
  typed: { value: number; at: string }[],
): Capture {
  const { probe, quantity, unit } = facts
  const id = draft.ids[probe]!
  const spot = { id, quadrat: draft.quadrat, probe, typed }
  return {
    id,
    survey: draft.survey,
    spot: by === null ? spot : { ...spot, by },
    takenMs,
    quantity,
    unit,
    values: typed.map(({ value }) => value),
    state: 'waiting',
    refusal: null,
  }
}
