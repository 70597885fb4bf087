import { statfsSync } from 'node:fs'
import type { HubHealth } from '../contract/status.ts'
import type { HubState } from './desk.ts'

/** A class's day of readings is some tens of MB. */
const LEAST_FREE_BYTES = 50_000_000

/** What is wrong with the hub at this moment, in words; for a watchdog, and for whoever is asked “does it work?” */
export function healthOf(state: HubState, dataFolder: string): HubHealth {
  const troubles: HubHealth['troubles'] = []
  const add = (what: string, said: string | null) => {
    if (said !== null) troubles.push({ what, said })
  }
  add('storing', state.trouble)
  add(
    'broker',
    state.broker.state === 'gone' ? (state.broker.trouble ?? 'The broker is gone.') : state.broker.trouble,
  )
  add('backup', state.backup?.trouble ?? null)
  for (const port of state.ports) if (port.trouble !== null) add(`port ${port.path}`, port.trouble)
  for (const board of state.boards) add(`board ${board.name}`, board.trouble)
  add('disk', lowDisk(dataFolder))
  return { isWell: troubles.length === 0, troubles }
}

function lowDisk(folder: string): string | null {
  try {
    const { bavail, bsize } = statfsSync(folder)
    const free = bavail * bsize
    return free < LEAST_FREE_BYTES ? `${Math.round(free / 1e6)} MB are free on the disk of ${folder}.` : null
  } catch {
    return `The disk of ${folder} cannot be looked at.`
  }
}
