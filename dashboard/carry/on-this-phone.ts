import { effect, signal } from '@preact/signals'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { recall, remember } from '../bench/remembered.ts'
import { connection } from '../live.ts'
import type { Capture, Draft } from './capture.ts'
import { Outbox, type Shelf } from './outbox.ts'
import { memoryShelf, openPhoneShelves, type PhoneShelves } from './phone-shelves.ts'
import { sendCapture } from './send-capture.ts'

/** Captures that the hub has not confirmed, oldest first. */
export const unsent = signal<readonly Capture[]>([])
/** Captures in the making, by their key. */
export const drafts = signal<ReadonlyMap<string, Draft>>(new Map())
/** Surveys as this phone saw them last, for when the hub is out of reach. */
export const surveysSeen = signal<ReadonlyMap<string, SurveyFile>>(new Map())
/** null until the shelves are open; false when this browser keeps nothing */
export const isKeptOnPhone = signal<boolean | null>(null)

const SENT_REMEMBERED = 400

let shelves: PhoneShelves | null = null
let outbox: Outbox | null = null
let opening: Promise<Outbox> | null = null

/** Opens the shelves, once, and begins to send what waits. */
export function openPhone(): Promise<Outbox> {
  opening ??= open()
  return opening
}

async function open(): Promise<Outbox> {
  const opened = await openPhoneShelves()
  shelves = opened
  outbox = new Outbox({
    shelf: spilling(opened.captures),
    send: sendCapture,
    later: (ms, work) => {
      const timer = setTimeout(work, ms)
      return () => clearTimeout(timer)
    },
    changed: (captures) => {
      unsent.value = captures
    },
    kept: ({ id }) => rememberSent(id),
  })
  drafts.value = new Map((await opened.drafts.all()).map((draft) => [draft.key, draft]))
  surveysSeen.value = new Map((await opened.surveys.all()).map((survey) => [survey.id, survey]))
  isKeptOnPhone.value = opened.isLasting
  await outbox.add([])
  const flush = () => void outbox?.flush()
  addEventListener('online', flush)
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) flush()
  })
  effect(() => {
    if (connection.value === 'live') flush()
  })
  void navigator.storage?.persist?.().catch(() => false)
  return outbox
}

/** What the phone has no room for stays in memory, and that is said. */
function spilling(shelf: Shelf<Capture>): Shelf<Capture> {
  const spilled = memoryShelf<Capture>('id')
  return {
    all: async () => [...(await shelf.all().catch(() => [])), ...(await spilled.all())],
    put: async (capture) => {
      try {
        await shelf.put(capture)
      } catch {
        await spilled.put(capture)
        isKeptOnPhone.value = false
      }
    },
    remove: async (id) => {
      await spilled.remove(id)
      await shelf.remove(id)
    },
  }
}

export async function keepDraft(draft: Draft): Promise<void> {
  drafts.value = new Map(drafts.peek()).set(draft.key, draft)
  await shelves?.drafts.put(draft).catch(() => {
    isKeptOnPhone.value = false
  })
}

export async function dropDraft(key: string): Promise<void> {
  const left = new Map(drafts.peek())
  left.delete(key)
  drafts.value = left
  await shelves?.drafts.remove(key).catch(() => undefined)
}

/** The captures first, then the draft goes: whatever happens in between, the same ids are sent again. */
export async function finishDraft(draft: Draft, captures: readonly Capture[]): Promise<void> {
  await (await openPhone()).add(captures)
  await dropDraft(draft.key)
}

export function rememberSeen(survey: SurveyFile): void {
  if (surveysSeen.peek().get(survey.id) === survey) return
  surveysSeen.value = new Map(surveysSeen.peek()).set(survey.id, survey)
  void shelves?.surveys.put(survey).catch(() => undefined)
}

/** Ids of captures that this phone has sent, so that it can list its own. */
export function sentFromHere(): readonly string[] {
  return recall<string[]>('carry sent', [])
}

function rememberSent(id: string): void {
  remember('carry sent', [...sentFromHere().filter((each) => each !== id), id].slice(-SENT_REMEMBERED))
}
