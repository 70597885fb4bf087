import { rfc3339 } from '../clock.ts'
import type { HubState } from '../http/desk.ts'
import type { Event } from './event-log.ts'

const info = (what: string, said: string): Event => ({ level: 'info', what, said })
const warning = (what: string, said: string): Event => ({ level: 'warning', what, said })
const error = (what: string, said: string): Event => ({ level: 'error', what, said })

/** What is worth a line in the log between one state of the hub and the next. `before` is null at the start. */
export function whatChanged(before: HubState | null, after: HubState): Event[] {
  return [
    ...troubleOf('storing', before?.trouble ?? null, after.trouble),
    ...broker(before, after),
    ...after.ports.flatMap((port) => onePort(before, port)),
    ...after.boards.flatMap((board) => oneBoard(before, board)),
    ...clock(before, after),
    ...backup(before, after),
    ...recomputing(before?.isRecomputing ?? false, after),
  ]
}

function troubleOf(what: string, before: string | null, after: string | null): Event[] {
  if (before === after) return []
  return [after === null ? info(what, 'works again') : error(what, after)]
}

function broker(before: HubState | null, { broker: now }: HubState): Event[] {
  const old = before?.broker
  if (old && old.state === now.state && old.trouble === now.trouble) return []
  const said = now.trouble ?? (now.state === 'open' ? now.description : 'gone')
  return [now.state === 'open' && now.trouble === null ? info('broker', said) : error('broker', said)]
}

function onePort(before: HubState | null, now: HubState['ports'][number]): Event[] {
  const old = before?.ports.find(({ path }) => path === now.path)
  if (old && old.state === now.state && old.trouble === now.trouble && old.note === now.note) return []
  const what = `port ${now.path}`
  if (now.trouble !== null) return [warning(what, now.trouble)]
  return [info(what, now.note === null ? now.state : `${now.state}: ${now.note}`)]
}

function oneBoard(before: HubState | null, now: HubState['boards'][number]): Event[] {
  const old = before?.boards.find(({ name }) => name === now.name)
  const what = `board ${now.name}`
  const events: Event[] = []
  if (!old) events.push(info(what, 'heard for the first time since the hub began'))
  if (old && old.link !== now.link && now.link !== null)
    events.push(now.link === 'up' ? info(what, 'connected') : warning(what, 'lost its connection'))
  if (old && old.startup !== null && now.startup !== null && old.startup !== now.startup)
    events.push(info(what, `began anew (start-up ${now.startup})`))
  return [...events, ...troubleOf(what, old?.trouble ?? null, now.trouble)]
}

function clock(before: HubState | null, after: HubState): Event[] {
  const known = new Set(
    before?.clockJumps.map(({ atMs }) => atMs) ?? after.clockJumps.map(({ atMs }) => atMs),
  )
  return after.clockJumps
    .filter(({ atMs }) => !known.has(atMs))
    .map(({ atMs, byMs }) =>
      warning(
        'clock',
        `the clock of this computer was set by ${(byMs / 1000).toFixed(1)} s at ${rfc3339(atMs)}`,
      ),
    )
}

function backup(before: HubState | null, after: HubState): Event[] {
  const [old, now] = [before?.backup ?? null, after.backup]
  if (now === null) return []
  const made =
    now.lastMs !== null && now.lastMs !== old?.lastMs ? [info('backup', `made: ${now.lastFile}`)] : []
  return [
    ...made,
    ...(now.trouble !== null && now.trouble !== old?.trouble ? [error('backup', now.trouble)] : []),
  ]
}

function recomputing(was: boolean, after: HubState): Event[] {
  if (was === after.isRecomputing) return []
  return [
    after.isRecomputing
      ? info('values', `being worked out again: ${after.recomputing.total} readings`)
      : info('values', 'all worked out'),
  ]
}
