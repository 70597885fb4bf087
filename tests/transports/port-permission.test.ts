import { chmodSync, chownSync } from 'node:fs'
import { dirname } from 'node:path'
import { expect, test } from 'vitest'
import { startHub } from '../support/running-hub.ts'
import { CabledBoard, DeviceName } from '../support/serial-bench.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const nobody = { uid: 65_534, gid: 65_534 }

test('a port this user may not open is said to be that, with the group to join, and opened once it may be', async () => {
  const board = await CabledBoard.plugIn()
  // by a name of its own, as a cable has: a bare pseudo-terminal is not tried again by its number
  const device = new DeviceName()
  device.pointAt(board)
  chmodSync(dirname(device.path), 0o755)
  const dataFolder = temporaryFolder()
  const isRoot = process.getuid?.() === 0
  // root may open anything, so the hub runs as somebody else
  if (isRoot) chownSync(dataFolder, nobody.uid, nobody.gid)
  chmodSync(board.path, 0o000)
  const hub = await startHub({
    dataFolder,
    args: ['--serial', device.path],
    ...(isRoot ? { user: nobody } : {}),
  })
  const { ports } = await hub.until(
    () => hub.directory(),
    ({ ports }) => ports.some(({ trouble }) => trouble !== null),
  )
  expect(ports).toMatchObject([{ path: device.path, state: 'gone' }])
  expect(ports[0]!.trouble).toMatch(/^E_PORT_PERMISSION: This user may not open .* group dialout/)
  chmodSync(board.path, 0o666)
  await hub.until(
    () => hub.directory(),
    ({ ports }) => ports[0]?.state === 'open',
  )
})
