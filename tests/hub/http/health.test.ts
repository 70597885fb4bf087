import { expect, test } from 'vitest'
import type { HubState } from '../../../hub/http/desk.ts'
import { healthOf } from '../../../hub/http/health.ts'
import { quietState } from '../../support/quiet-state.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

test('a hub without trouble is well', () => {
  expect(healthOf(quietState, temporaryFolder())).toEqual({ isWell: true, troubles: [] })
})

test('each trouble is named with what it is about', () => {
  const state: HubState = {
    ...quietState,
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
