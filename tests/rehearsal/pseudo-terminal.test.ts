import { spawnSync } from 'node:child_process'
import { SerialPort } from 'serialport'
import { afterEach, describe, expect, it } from 'vitest'
import { openPseudoTerminal, type PseudoTerminal } from '../../hub/rehearsal/pseudo-terminal.ts'
import { terminalRecipes } from '../../hub/rehearsal/terminal-recipes.ts'
import { mendHangup } from '../../hub/sources/serial-hangup.ts'

mendHangup()

const everyByte = Buffer.from(Array.from({ length: 256 }, (_, value) => value))
const mixture = Buffer.concat([everyByte, Buffer.from('\r\n\n\r'), ...Array(200).fill(everyByte), everyByte])

let terminal: PseudoTerminal | null = null
let port: SerialPort | null = null
afterEach(async () => {
  if (port?.isOpen) port.close()
  terminal?.unplug()
  await terminal?.unplugged
})

function collecting(length: number) {
  let got = Buffer.alloc(0)
  let settle: (bytes: Buffer) => void = () => {}
  const complete = new Promise<Buffer>((resolve) => {
    settle = resolve
  })
  return {
    complete,
    take: (bytes: Buffer) => {
      got = Buffer.concat([got, bytes])
      if (got.length >= length) settle(got)
    },
  }
}

async function openPort(path: string): Promise<SerialPort> {
  const opening = new SerialPort({ path, baudRate: 115_200, autoOpen: false })
  await new Promise<void>((resolve, reject) => opening.open((error) => (error ? reject(error) : resolve())))
  return opening
}

for (const recipe of terminalRecipes(process.pid, process.platform)) {
  // `script` must be there; python3 is a second way, proven where it is installed
  const isThere = recipe.name === 'script' || spawnSync(recipe.command, ['--version']).status === 0
  describe.runIf(isThere)(`a pseudo-terminal made by ${recipe.name}`, () => {
    it('carries every byte value both ways, 50 kB at a stretch', async () => {
      const toBoard = collecting(mixture.length)
      const toHub = collecting(mixture.length)
      terminal = await openPseudoTerminal(toBoard.take, [recipe])
      expect(terminal?.madeBy).toBe(recipe.name)
      port = await openPort(terminal!.path)
      port.on('data', toHub.take)
      terminal!.write(mixture)
      expect((await toHub.complete).equals(mixture)).toBe(true)
      port.write(mixture)
      expect((await toBoard.complete).equals(mixture)).toBe(true)
      expect(terminal!.pendingBytes()).toBe(0)
    })

    it('knows whether somebody listens, through closing and opening again', async () => {
      terminal = await openPseudoTerminal(() => {}, [recipe])
      expect(terminal!.isListenedTo()).toBe(false)
      port = await openPort(terminal!.path)
      expect(terminal!.isListenedTo()).toBe(true)
      await new Promise((resolve) => port!.close(resolve))
      expect(terminal!.isListenedTo()).toBe(false)
      port = await openPort(terminal!.path)
      expect(terminal!.isListenedTo()).toBe(true)
    })

    it('hangs up on the listener when the cable is pulled', async () => {
      terminal = await openPseudoTerminal(() => {}, [recipe])
      port = await openPort(terminal!.path)
      port.resume() // a hangup is noticed by reading
      const closed = new Promise<{ disconnected?: boolean } | null>((resolve) => port!.once('close', resolve))
      terminal!.unplug()
      expect((await closed)?.disconnected).toBe(true)
      await terminal!.unplugged
    })
  })
}

describe('a machine that lacks the first program', () => {
  const missing = { name: 'missing', command: '/nowhere/script', args: [] }
  const silent = { name: 'misbehaving', command: 'sh', args: ['-c', 'echo no terminal here'] }
  const good = terminalRecipes(process.pid, process.platform)

  it('takes the next one, also when the first misbehaves', async () => {
    terminal = await openPseudoTerminal(() => {}, [missing, silent, ...good])
    expect(terminal?.madeBy).toBe(good[0]?.name)
  })

  it('says so when there is none', async () => {
    expect(await openPseudoTerminal(() => {}, [missing, silent])).toBeNull()
  })
})
