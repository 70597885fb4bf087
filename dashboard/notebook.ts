import { batch, computed, type Signal, signal } from '@preact/signals'
import type { ChannelNow, ReadingTuple } from '../hub/contract/reading.ts'
import type { BoardNow, HubNow, PortNow } from '../hub/contract/status.ts'
import type { SurveyFile } from '../hub/contract/survey.ts'
import { fetchYou, you } from './access/you.ts'
import { atPace } from './at-pace.ts'
import { ChangesSeen } from './changes-seen.ts'
import { client, messageOf, Refusal } from './client.ts'
import { hearClock, tick } from './hub-clock.ts'
import { inOrder } from './in-order.ts'
import { connection, follow } from './live.ts'

/** What this page knows of the hub: fetched once, then kept true by the stream. */
export const hub = signal<HubNow | null>(null)
export const boards = signal<BoardNow[] | null>(null)
export const ports = signal<PortNow[]>([])
export const channels = signal<ReadonlyMap<number, ChannelNow>>(new Map())
/** Goes up when stored values changed: recomputed, or too much was missed. */
export const rewritten = signal(0)
/** Goes up when a spot reading came in or was changed. */
export const spotsChanged = signal(0)

/** A survey's file; a text says why there is none. */
export type SurveyKept = SurveyFile | string | null
const surveys = new Map<string, { kept: Signal<SurveyKept>; ask: ReturnType<typeof inOrder> }>()

export const channelList = computed(() => [...channels.value.values()])

export function surveyKept(id: string): Signal<SurveyKept> {
  return surveyEntry(id).kept
}

function surveyEntry(id: string) {
  let entry = surveys.get(id)
  if (!entry) {
    entry = { kept: signal<SurveyKept>(null), ask: inOrder() }
    surveys.set(id, entry)
    void fetchSurvey(id)
  }
  return entry
}

export async function fetchSurvey(id: string): Promise<void> {
  const { kept, ask } = surveyEntry(id)
  const isNewest = ask()
  try {
    const survey = await client.survey(id)
    if (isNewest()) kept.value = survey
  } catch (error) {
    // what is on the page stays there while the hub is away
    if (error instanceof Refusal && error.code !== '' && isNewest()) kept.value = error.message
  }
}

/** Names of the probes in every survey of the hub, as far as this page has read them. */
export function knownProbes(): string[] {
  return [...surveys.values()].flatMap(({ kept: { value } }) =>
    value !== null && typeof value === 'object' ? value.probes.map(({ id }) => id) : [],
  )
}

/** Reads every survey of the hub, for what must be one of its kind in all of them. */
export function readAllSurveys(): void {
  for (const { id } of hub.value?.surveys ?? []) surveyKept(id)
}

type RowsListener = (rows: readonly ReadingTuple[]) => void
const listeners = new Set<RowsListener>()

/** Tells of every reading as it arrives, until the function returned is called. */
export function onReadings(listener: RowsListener): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

const askingHub = inOrder()

async function fetchHub(): Promise<void> {
  const isNewest = askingHub()
  const now = await client.hub()
  if (!isNewest()) return
  const before = hub.value
  // another data folder, or an emptied one: what was drawn belongs to a notebook that is closed
  if (before && (before.isRehearsal !== now.isRehearsal || now.lastMessage < before.lastMessage))
    location.reload()
  hearClock(now.nowMs, now.speed)
  hub.value = now
}

async function fetchDirectory(): Promise<void> {
  const directory = await client.directory()
  batch(() => {
    boards.value = directory.boards
    ports.value = directory.ports
    channels.value = new Map(directory.channels.map((channel) => [channel.id, channel]))
    tick()
  })
}

/** Runs `work` at most once in `everyMs`, and once more at the end when it was asked for meanwhile. */
function seldom(everyMs: number, work: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  let isWanted = false
  return () => {
    if (timer) isWanted = true
    else {
      work()
      timer = setTimeout(() => {
        timer = undefined
        if (isWanted) work()
        isWanted = false
      }, everyMs)
    }
  }
}

const quietly = (work: Promise<unknown>) => void work.catch(() => undefined)

function fetchSurveys(): void {
  for (const id of surveys.keys()) quietly(fetchSurvey(id))
}

const refreshDirectory = seldom(1500, () => quietly(fetchDirectory()))
const refreshHub = seldom(3000, () => quietly(fetchHub()))
const refreshSurveys = seldom(500, () => {
  quietly(fetchHub())
  fetchSurveys()
})

export function refreshAll(): void {
  refreshSurveys()
  refreshDirectory()
}

/** Whatever may have changed is fetched anew, and drawn anew. */
function fetchEverything(): void {
  refreshAll()
  rewritten.value++
  spotsChanged.value++
}

let waiting: ReadingTuple[] = []
const takeWaiting = atPace(250, () => {
  const rows = waiting
  waiting = []
  const next = new Map(channels.value)
  let needsDirectory = false
  for (const row of rows) {
    const channel = next.get(row[1])
    if (!channel) needsDirectory = true
    else if (!channel.latest || row[2] >= channel.latest[2]) {
      // the reasons of a flag are not in the stream
      if (row[6] === 3 || row[6] === 4) needsDirectory ||= channel.latest?.[6] !== row[6]
      next.set(channel.id, {
        ...channel,
        latest: row,
        why: channel.latest?.[6] === row[6] ? channel.why : [],
      })
    }
  }
  batch(() => {
    channels.value = next
    tick()
  })
  if (needsDirectory) refreshDirectory()
})

export async function openNotebook(): Promise<void> {
  for (;;) {
    try {
      await fetchYou()
      // nothing is shown before the class code; entering begins anew
      if (you.value?.role === 'stranger') return
      await fetchHub()
      // asked for before the hub had counted its changes, perhaps
      fetchSurveys()
      await fetchDirectory()
      break
    } catch (error) {
      connection.value = 'lost'
      console.warn(messageOf(error))
      await new Promise((resolve) => setTimeout(resolve, 2000))
    }
  }
  connection.value = 'joining'
  const seen = new ChangesSeen(hub.value?.changes ?? 0)
  follow(hub.value?.lastMessage ?? 0, {
    readings(rows) {
      waiting.push(...rows)
      takeWaiting()
      for (const listener of listeners) listener(rows)
    },
    told(event, changes) {
      if (seen.isMissed(event, changes) || event === 'resync') {
        fetchEverything()
        return
      }
      if (event === 'directory') refreshDirectory()
      if (event === 'pulse' || event === 'directory') refreshHub()
      if (event === 'surveys') refreshAll()
      if (event === 'spots') spotsChanged.value++
      if (event === 'recomputed') {
        refreshAll()
        rewritten.value++
      }
    },
    behind: fetchEverything,
    back: refreshAll,
  })
}
