import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { setTimeout as pause } from 'node:timers/promises'
import { SerialPort } from 'serialport'
import { expect, test } from 'vitest'
import { mendHangup } from '../../../hub/sources/serial-hangup.ts'
import { endProgram, startProgram } from '../../support/needed-program.ts'
import { ReceivedFrames } from '../../support/received-frames.ts'
import { SerialBench } from '../../support/serial-bench.ts'

mendHangup()

/** Says a line and is pulled out in the same moment, when told to: no program in between that could part the two. */
const boardThatIsPulledWhileTalking = `
import os, sys, tty
master, slave = os.openpty()
tty.setraw(slave)
print(os.ttyname(slave), flush=True)
sys.stdin.readline()
os.close(slave)
os.write(master, b'[{"n":"a/x","v":1}]\\n')
os._exit(0)
`

async function plugIn() {
  const child = startProgram('python3', ['-c', boardThatIsPulledWhileTalking])
  const [path] = (await once(createInterface({ input: child.stdout! }), 'line')) as [string]
  return { path, child, pull: () => child.stdin!.write('\n') }
}

test('twenty boards pulled out in the tick of a line all end in a close that says so, and none keeps a core busy', async () => {
  for (let turn = 0; turn < 20; turn++) {
    const board = await plugIn()
    const port = new SerialPort({ path: board.path, baudRate: 115_200, autoOpen: false })
    await new Promise<void>((resolve, reject) => port.open((error) => (error ? reject(error) : resolve())))
    port.resume()
    const closed = once(port, 'close')
    board.pull()
    const [error] = (await closed) as [{ disconnected?: boolean } | null]
    expect(error?.disconnected).toBe(true)
    expect(port.isOpen).toBe(false)
    await endProgram(board.child)
  }
  const before = process.cpuUsage()
  const window = 400
  await pause(window)
  const { user, system } = process.cpuUsage(before)
  expect((user + system) / 1000 / window).toBeLessThan(0.5)
})

test('a board pulled out in the tick of a line is said to be gone, and its port tried again', async () => {
  const bench = new SerialBench(new ReceivedFrames())
  for (let turn = 0; turn < 5; turn++) {
    const board = await plugIn()
    bench.source.open({ path: board.path, baudRate: 115_200 }, 'sedge-1')
    await bench.until(board.path, 'open')
    board.pull()
    const { trouble } = await bench.until(board.path, 'gone')
    expect(trouble).toMatch(/stopped answering|no port/)
    bench.source.close(board.path)
    await endProgram(board.child)
  }
})
