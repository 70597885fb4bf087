import { expect, test } from 'vitest'
import type { HubState } from '../../../hub/http/desk.ts'
import { whatChanged } from '../../../hub/log/what-changed.ts'
import { quietState } from '../../support/quiet-state.ts'

const calm: HubState = {
  ...quietState,
  broker: { description: 'embedded broker at mqtt://127.0.0.1:1883', state: 'open', trouble: null },
}
const port = { path: '/dev/ttyUSB0', baudRate: 115_200, lastHeardMs: null, note: null } as const
const board = {
  name: 'sedge-1',
  firstHeardMs: 1,
  lastHeardMs: 1,
  source: 'mqtt:sedge-1',
  link: 'up',
  startup: 4,
  messages: 9,
  missed: 0,
  trouble: null,
} as HubState['boards'][number]

test('a state that stays as it is writes nothing, however often it is told', () => {
  const busy = { ...calm, boards: [board], ports: [{ ...port, state: 'open', trouble: null } as const] }
  expect(whatChanged(busy, { ...busy, boards: [{ ...board, messages: 10, lastHeardMs: 2 }] })).toEqual([])
})

test('the first state says where the broker is', () => {
  expect(whatChanged(null, calm)).toEqual([
    { level: 'info', what: 'broker', said: 'embedded broker at mqtt://127.0.0.1:1883' },
  ])
})

test.each<[string, HubState, HubState, object[]]>([
  [
    'a full disk',
    calm,
    { ...calm, trouble: 'The disk is full.' },
    [{ level: 'error', what: 'storing', said: 'The disk is full.' }],
  ],
  [
    'a disk with room again',
    { ...calm, trouble: 'The disk is full.' },
    calm,
    [{ level: 'info', what: 'storing', said: 'works again' }],
  ],
  [
    'a cable pulled',
    { ...calm, ports: [{ ...port, state: 'open', trouble: null }] },
    { ...calm, ports: [{ ...port, state: 'gone', trouble: 'The port is gone.' }] },
    [{ level: 'warning', what: 'port /dev/ttyUSB0', said: 'The port is gone.' }],
  ],
  [
    'a board on another port',
    { ...calm, ports: [] },
    { ...calm, ports: [{ ...port, state: 'open', trouble: null, note: 'It was at /dev/ttyUSB1 before.' }] },
    [{ level: 'info', what: 'port /dev/ttyUSB0', said: 'open: It was at /dev/ttyUSB1 before.' }],
  ],
  [
    'a lost link',
    { ...calm, boards: [board] },
    { ...calm, boards: [{ ...board, link: 'lost' }] },
    [{ level: 'warning', what: 'board sedge-1', said: 'lost its connection' }],
  ],
  [
    'a board begun anew',
    { ...calm, boards: [board] },
    { ...calm, boards: [{ ...board, startup: 5 }] },
    [{ level: 'info', what: 'board sedge-1', said: 'began anew (start-up 5)' }],
  ],
  [
    'a broker gone',
    calm,
    { ...calm, broker: { ...calm.broker, state: 'gone', trouble: null } },
    [{ level: 'error', what: 'broker', said: 'gone' }],
  ],
  [
    'a clock set',
    calm,
    { ...calm, clockJumps: [{ atMs: Date.UTC(2026, 5, 12), byMs: 86_400_000, sinceMs: 0 }] },
    [
      {
        level: 'warning',
        what: 'clock',
        said: 'the clock of this computer was set by 86400.0 s at 2026-06-12T00:00:00.000Z',
      },
    ],
  ],
  [
    'a backup that failed',
    { ...calm, backup: { to: '/media/stick', lastMs: 5, lastFile: 'a.sqlite', trouble: null } },
    { ...calm, backup: { to: '/media/stick', lastMs: 5, lastFile: 'a.sqlite', trouble: 'No stick.' } },
    [{ level: 'error', what: 'backup', said: 'No stick.' }],
  ],
  [
    'a backup made',
    { ...calm, backup: { to: '/media/stick', lastMs: null, lastFile: null, trouble: null } },
    { ...calm, backup: { to: '/media/stick', lastMs: 5, lastFile: 'a.sqlite', trouble: null } },
    [{ level: 'info', what: 'backup', said: 'made: a.sqlite' }],
  ],
  [
    'a recalibration',
    calm,
    { ...calm, isRecomputing: true, recomputing: { left: 40, total: 40 } },
    [{ level: 'info', what: 'values', said: 'being worked out again: 40 readings' }],
  ],
])('%s is one line', (_what, before, after, lines) => {
  expect(whatChanged(before, after)).toEqual(lines)
})
