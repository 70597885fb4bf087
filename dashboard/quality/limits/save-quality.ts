import type { CleanCount } from '../../../hub/contract/clean.ts'
import type { QualitySettings } from '../../../hub/contract/survey.ts'
import { client } from '../../client.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'
import { type ChangedSides, changedSides } from './changed-sides.ts'

export interface SavedQuality {
  /** to go back to */
  settingsBefore: QualitySettings
  before: CleanCount
  after: CleanCount
  /** null: too many readings to compare one by one on a phone */
  sides: ChangedSides | null
}

export type SaveStep = 'counting' | 'saving' | { left: number; total: number }

const EVERY_MS = 700
/** The hub may not have begun when it is first asked. */
const LEAST_ASKS = 4
/** The hub tests what arrives in batches: so long, by the clock on the wall, a reading may wait for it. */
const UNTESTED_MS = 20_000
/** About 160 bytes each. */
const COMPARED_AT_MOST = 60_000

/** What is known of the readings when new settings are put in force. */
export interface SaveBegun {
  settingsBefore: QualitySettings
  upTo: string
  testedUpTo: string
  before: CleanCount
  rowsBefore: string | null
}

/** Counts, and puts the settings in force; when it fails nothing was changed. */
export async function beginSaving(
  survey: string,
  settingsBefore: QualitySettings,
  settings: QualitySettings,
  tell: (step: SaveStep) => void,
): Promise<SaveBegun> {
  tell('counting')
  const nowMs = hubNowMs()
  const upTo = new Date(nowMs).toISOString()
  const testedUpTo = new Date(nowMs - UNTESTED_MS * (hub.value?.speed ?? 1)).toISOString()
  const before = await client.clean(survey)
  const rowsBefore = isComparable(before) ? await client.leftOutRows(survey, upTo) : null
  tell('saving')
  await client.setQuality(survey, settings)
  return { settingsBefore, upTo, testedUpTo, before, rowsBefore }
}

/** Waits until the hub has worked all flags out again, and says what that changed. */
export async function finishSaving(
  survey: string,
  { settingsBefore, upTo, testedUpTo, before, rowsBefore }: SaveBegun,
  tell: (step: SaveStep) => void,
): Promise<SavedQuality> {
  await reflagged(tell)
  tell('counting')
  const after = await client.clean(survey)
  const sides =
    rowsBefore === null || !isComparable(after)
      ? null
      : changedSides(rowsBefore, await client.leftOutRows(survey, upTo), testedUpTo)
  return { settingsBefore, before, after, sides }
}

function isComparable({ all, clean }: CleanCount): boolean {
  return all - clean <= COMPARED_AT_MOST
}

async function reflagged(tell: (step: SaveStep) => void): Promise<void> {
  for (let asks = 1; ; asks++) {
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS))
    const now = await client.hub().catch(() => null)
    if (now) tell(now.recomputing)
    if (now && !now.isRecomputing && asks >= LEAST_ASKS) return
  }
}
