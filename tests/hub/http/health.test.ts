import { expect, test } from 'vitest'
import type { HubState } from '../../../hub/http/desk.ts'
import { healthOf } from '../../../hub/http/health.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const well: HubState = {
  boards: [],
  ports: [],
  broker: { description: 'none', state: 'open', trouble: null },
  trouble: null,
  isRecomputing: false,
  recomputing: { left: 0, total: 0 },
  clockJumps: [],
  backup: null,
  boardsWithKey: [],
}

test('a hub without trouble is well', () => {
  expect(healthOf(well, temporaryFolder())).toEqual({ isWell: true, troubles: [] })
})

test('each trouble is named with what it is about', () => {
  const state: HubState = {
    ...well,
    trouble: 'E_DISK: the disk takes no more.',
    broker: { description: 'outside', state: 'gone', trouble: null },
    backup: { to: '/stick', lastMs: null, lastFile: null, trouble: 'the stick is full' },
    ports: [
      {
        path: '/dev/ttyUSB0',
        baudRate: 115_200,
        state: 'gone',
        trouble: 'unplugged',
        lastHeardMs: null,
        note: null,
      },
    ],
  }
  const { isWell, troubles } = healthOf(state, '/nowhere/at/all')
  expect(isWell).toBe(false)
  expect(troubles.map(({ what }) => what)).toEqual([
    'storing',
    'broker',
    'backup',
    'port /dev/ttyUSB0',
    'disk',
  ])
  for (const { said } of troubles) expect(said).not.toBe('')
})
