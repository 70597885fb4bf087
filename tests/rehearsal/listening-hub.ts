import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createServer, type Server, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { Aedes } from 'aedes'
import { SerialPort } from 'serialport'
import { mendHangup } from '../../hub/sources/serial-hangup.ts'

mendHangup()

export type Line = Record<string, unknown>

const builtClass = fileURLToPath(new URL('../../.build/hub/rehearsal/class.js', import.meta.url))

/** A broker on a free port; can be stopped and started again on the same one. */
export async function startBroker(onPayload: (topic: string, payload: Buffer) => void) {
  let port = 0
  let broker: Aedes
  let server: Server
  const sockets = new Set<Socket>()

  async function start(): Promise<void> {
    broker = await Aedes.createBroker()
    broker.authorizePublish = (_client, packet, done) => {
      onPayload(packet.topic, Buffer.from(packet.payload))
      done(null)
    }
    server = createServer((socket) => {
      sockets.add(socket)
      socket.once('close', () => sockets.delete(socket))
      broker.handle(socket)
    })
    server.listen(port, '127.0.0.1')
    await once(server, 'listening')
    const address = server.address()
    if (address && typeof address === 'object') port = address.port
  }

  async function stop(): Promise<void> {
    const closed = once(server, 'close')
    server.close()
    for (const socket of sockets) socket.destroy()
    await new Promise<void>((resolve) => broker.close(() => resolve()))
    await closed
  }

  await start()
  return {
    url: () => `mqtt://127.0.0.1:${port}`,
    start,
    stop,
    ask: (board: string, text: string) =>
      broker.publish(
        {
          cmd: 'publish',
          topic: `tussock/${board}/ask`,
          payload: text,
          qos: 1,
          retain: false,
          dup: false,
        },
        () => {},
      ),
  }
}

/** Opens each port the class names, as a hub does, and answers `kept` to every numbered line. */
export function listenOn(path: string, baudRate: number, onLine: (line: Buffer) => void) {
  const port = new SerialPort({ path, baudRate })
  const closed = new Promise<void>((resolve) => port.once('close', () => resolve()))
  let held = Buffer.alloc(0)
  port.on('error', () => {}) // a write racing an unplug
  port.on('data', (bytes: Buffer) => {
    held = Buffer.concat([held, bytes])
    for (let end = held.indexOf(0x0a); end >= 0; end = held.indexOf(0x0a)) {
      const line = held.subarray(0, end)
      held = held.subarray(end + 1)
      onLine(line.at(-1) === 0x0d ? line.subarray(0, -1) : line)
    }
  })
  return {
    closed,
    held: () => held,
    say: (text: string) => void port.write(`${text}\n`),
    close: () => {
      if (port.isOpen) port.close()
    },
  }
}

/** The class as its own process, with its JSON lines and its truth. */
export function spawnClass(args: readonly string[], onTold: (line: Line) => void = () => {}) {
  const folder = mkdtempSync(join(tmpdir(), 'rehearsal-'))
  const truthPath = join(folder, 'truth.jsonl')
  const child: ChildProcess = spawn(process.execPath, [builtClass, '--truth', truthPath, ...args], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  const told: Line[] = []
  const waiting: { kind: string; settle: (line: Line) => void }[] = []
  if (child.stdout) {
    createInterface({ input: child.stdout }).on('line', (text) => {
      const line: Line = JSON.parse(text)
      told.push(line)
      onTold(line)
      for (const one of waiting.filter(({ kind }) => kind === line['kind'])) one.settle(line)
    })
  }
  const ended = new Promise<number | null>((resolve) => child.once('close', (code) => resolve(code)))
  return {
    child,
    told,
    ended,
    whenTold: (kind: string) => new Promise<Line>((settle) => waiting.push({ kind, settle })),
    truth: (): Line[] =>
      readFileSync(truthPath, 'utf8')
        .trimEnd()
        .split('\n')
        .map((text) => JSON.parse(text)),
    clear: () => rmSync(folder, { recursive: true, force: true }),
  }
}
