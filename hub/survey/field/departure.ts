import type { Departure, DepartureItem } from '../../contract/field.ts'
import type { ProbeReadiness } from '../../contract/readiness.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { type BoardFacts, boardItems } from './departure-boards.ts'

/** Common practice, no source: a day of a class fills some ten megabytes. */
const LITTLE_ROOM_BYTES = 1e9
const NO_ROOM_BYTES = 200e6

export interface DepartureFacts {
  survey: SurveyFile
  nowMs: number
  boards: readonly BoardFacts[]
  readiness: readonly ProbeReadiness[]
  storage: { trouble: string | null; tookMs: number; freeBytes: number | null }
  /** what keeps the hub from storing, or boards from reaching it */
  trouble: string | null
  brokerTrouble: string | null
}

/** Before leaving the school: what is fit to go out, what is not, and what to do about it. What fails comes first. */
export function departureOf(facts: DepartureFacts): Departure {
  const items = [
    ...facts.boards.flatMap((board) => boardItems(board, facts.nowMs)),
    ...facts.readiness.map(probeItem),
    ...hubItems(facts),
    ...planItems(facts.survey),
  ]
  if (facts.boards.length === 0)
    items.push({
      about: 'boards',
      state: 'fail',
      title: 'Boards',
      words: 'No board belongs to this survey yet.',
      remedy: 'Plug a board in or let it publish, then put its probes in place.',
      to: { page: 'boards', probe: null },
    })
  const failing = items.filter(({ state }) => state === 'fail').length
  const looking = items.filter(({ state }) => state === 'look').length
  const order = { fail: 0, look: 1, ok: 2 } as const
  return {
    nowMs: facts.nowMs,
    mayGoOut: failing === 0,
    sentence: sentenceOf(failing, looking),
    items: items.toSorted((one, other) => order[one.state] - order[other.state]),
  }
}

function sentenceOf(failing: number, looking: number): string {
  const look = looking === 0 ? '' : `${looking} to look at`
  if (failing === 0) return look === '' ? 'Ready to go out' : `Ready to go out, with ${look}`
  return `Not ready: ${failing} to mend${look === '' ? '' : `, ${look}`}`
}

function probeItem(probe: ProbeReadiness): DepartureItem {
  const state = probe.mayGoOut
    ? 'ok'
    : probe.state === 'not checked' || probe.state === 'withdrawn'
      ? 'look'
      : 'fail'
  return {
    about: 'probes',
    state,
    title: probe.probe,
    words: probe.why,
    remedy:
      state === 'ok'
        ? null
        : probe.state === 'withdrawn'
          ? 'Leave it at home.'
          : probe.state === 'not checked'
            ? 'Read it in a known reference at the bench.'
            : 'Calibrate it at the bench, then check it, or leave it at home.',
    to: { page: 'probe', probe: probe.probe },
  }
}

function hubItems({ storage, trouble, brokerTrouble }: DepartureFacts): DepartureItem[] {
  const { freeBytes } = storage
  const items: DepartureItem[] = [
    {
      about: 'hub',
      state: storage.trouble === null ? 'ok' : 'fail',
      title: 'Storage test',
      words:
        storage.trouble === null
          ? `A file was written, forced onto the disk and read back in ${Math.max(1, Math.round(storage.tookMs))} ms.`
          : `The hub could not write and read back a file: ${storage.trouble}`,
      remedy:
        storage.trouble === null ? null : 'Free some space, or start the hub with another --data folder.',
      to: null,
    },
    {
      about: 'hub',
      state:
        freeBytes === null || freeBytes < LITTLE_ROOM_BYTES
          ? freeBytes !== null && freeBytes < NO_ROOM_BYTES
            ? 'fail'
            : 'look'
          : 'ok',
      title: 'Room on the disk',
      words: freeBytes === null ? 'How much room is left could not be told.' : `${roomText(freeBytes)} free.`,
      remedy: freeBytes !== null && freeBytes >= LITTLE_ROOM_BYTES ? null : 'Make room before a long day.',
      to: null,
    },
  ]
  for (const words of [trouble, brokerTrouble])
    if (words !== null)
      items.push({
        about: 'hub',
        state: 'fail',
        title: 'The hub',
        words,
        remedy: 'Do what it says, then look again.',
        to: { page: 'boards', probe: null },
      })
  return items
}

function roomText(bytes: number): string {
  return bytes >= 1e9 ? `${(bytes / 1e9).toFixed(bytes >= 1e10 ? 0 : 1)} GB` : `${Math.floor(bytes / 1e6)} MB`
}

function planItems(survey: SurveyFile): DepartureItem[] {
  const quadrats = survey.quadrats.filter(({ lifted }) => lifted === undefined).length
  const wanted = survey.wanted?.length ?? 0
  const to = { page: 'plan', probe: null } as const
  return [
    {
      about: 'plan',
      state: quadrats > 0 ? 'ok' : 'fail',
      title: 'Quadrats',
      words:
        quadrats === 0
          ? 'No quadrat is planned.'
          : `${quadrats} ${quadrats === 1 ? 'quadrat' : 'quadrats'} planned.`,
      remedy: quadrats > 0 ? null : 'Lay them out in the plan.',
      to,
    },
    {
      about: 'plan',
      state: wanted > 0 ? 'ok' : 'look',
      title: 'What is wanted',
      words:
        wanted === 0
          ? 'The survey does not say what is to be measured at each quadrat, so “safe to leave” goes by its probes.'
          : `${wanted} ${wanted === 1 ? 'quantity' : 'quantities'} wanted at the quadrats.`,
      remedy: wanted > 0 ? null : 'Say it in the plan, with how many replicates.',
      to,
    },
  ]
}
