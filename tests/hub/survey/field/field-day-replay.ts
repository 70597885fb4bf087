import type { Frame } from '../../../../hub/sources/source.ts'
import { packOf } from './field-day-class.ts'
import type { DayEvents } from './field-day-events.ts'
import type { FieldDayHub } from './field-day-hub.ts'
import { BEGINS_MS, SURVEY } from './field-day-survey.ts'

/** Something that reaches the hub at a time. */
export interface Happening {
  atMs: number
  frame?: Frame
  post?: { path: string; body: unknown }
}

const iso = (ms: number) => new Date(ms).toISOString()

/** All that reaches the hub in the day, in the order of its arrival. */
export function happeningsOf(day: DayEvents): Happening[] {
  const frames = day.messages.flatMap((message) =>
    message.arrivals.map(({ sentMs, arrivedMs }): Happening => {
      const bytes = Buffer.from(JSON.stringify(packOf(message, sentMs)))
      const { board } = message
      return {
        atMs: arrivedMs,
        frame: { source: `mqtt:${board}`, arrivedMs, format: 'pack', board, bytes },
      }
    }),
  )
  // what was never said on the day is no happening: the deep thermometer has one placement only
  const placed = day.stays
    .filter(({ probe, fromMs }) => probe !== day.unsaid.probe || fromMs < day.unsaid.leftMs)
    .map(
      ({ probe, quadrat, fromMs }): Happening => ({
        atMs: fromMs,
        post: { path: 'placements', body: { probe, quadrat, from: iso(fromMs) } },
      }),
    )
  return [...frames, ...placed, ...heldPosts(day), ...typedPosts(day)].sort(
    (one, other) => one.atMs - other.atMs,
  )
}

function heldPosts({ held }: DayEvents): Happening[] {
  return held.flatMap(({ id, group, quadrat, held: insertions, sentMs, againMs, takenBackMs }) => {
    const spans = insertions.map(({ fromMs, toMs, isSteady }) => ({
      from: iso(fromMs),
      to: iso(toMs),
      isSteady,
    }))
    const sent = [sentMs, ...(againMs === null ? [] : [againMs])].map((atMs) => ({
      atMs,
      post: {
        path: 'spots',
        body: { id, quadrat, probe: 'PH-1', by: group, sentAt: iso(atMs), held: spans },
      },
    }))
    if (takenBackMs === null) return sent
    const body = { isTakenBack: true, reason: 'the electrode lay on a stone' }
    return [...sent, { atMs: takenBackMs, post: { path: `spots/${id}/amend`, body } }]
  })
}

function typedPosts({ typed }: DayEvents): Happening[] {
  return typed.flatMap(({ id, quadrat, typedMs, value, sentMs, againMs, phoneAheadMs }) =>
    [sentMs, ...(againMs === null ? [] : [againMs])].map((atMs) => ({
      atMs,
      post: {
        path: 'spots',
        body: {
          id,
          quadrat,
          probe: 'MOIST-1',
          sentAt: iso(atMs + phoneAheadMs),
          typed: [{ value, at: iso(typedMs + phoneAheadMs) }],
        },
      },
    })),
  )
}

/** Plays what happened to a hub; frames between two posts come in bursts of one minute. @returns the lines boards got */
export async function play(hub: FieldDayHub, happenings: readonly Happening[]): Promise<string[]> {
  const replies: string[] = []
  let waiting: Frame[] = []
  let minute = 0
  const flush = async () => {
    if (waiting.length > 0) for (const line of await hub.receive(waiting)) replies.push(line)
    waiting = []
  }
  for (const { atMs, frame, post } of happenings) {
    if (post || Math.floor((atMs - BEGINS_MS) / 60_000) !== minute) await flush()
    minute = Math.floor((atMs - BEGINS_MS) / 60_000)
    hub.nowMs = atMs
    if (frame) waiting.push(frame)
    if (post) await hub.ask(`/api/surveys/${SURVEY}/${post.path}`, post.body)
    if (post?.path === 'placements') hub.workOff()
  }
  await flush()
  return replies
}

/** Afterwards somebody says where the deep thermometer was: on its way, and then at the other quadrat. */
export async function sayWhereItWas(hub: FieldDayHub, { unsaid, stays }: DayEvents): Promise<void> {
  const [first, second] = stays.filter(({ probe }) => probe === unsaid.probe)
  const amend = (begins: number, at: number, quadrat: string | null) =>
    hub.ask(`/api/surveys/${SURVEY}/placements/amend`, {
      probe: unsaid.probe,
      begins: iso(begins),
      split: { at: iso(at), part: 'after', quadrat },
      reason: 'nobody pressed next',
    })
  await amend(first!.fromMs, unsaid.leftMs, null)
  await amend(unsaid.leftMs, unsaid.arrivedMs, second!.quadrat)
}

/** The clock that was an hour behind is put right for as long as it was. */
export async function putClockRight(hub: FieldDayHub, { plan }: DayEvents): Promise<void> {
  const { board, toMs, slowMs } = plan.slowClock
  await hub.ask(`/api/surveys/${SURVEY}/clock-corrections`, {
    board,
    from: iso(BEGINS_MS - 2 * slowMs),
    to: iso(toMs - slowMs),
    offsetSeconds: slowMs / 1000,
    reason: 'its clock stood at winter time',
  })
}
