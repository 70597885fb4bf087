import { setTimeout as pause } from 'node:timers/promises'
import { SerialPort } from 'serialport'
import { openPseudoTerminal } from '../../.build/hub/rehearsal/pseudo-terminal.js'
import { startHub } from './hub-process.mjs'
import { freshFolder, median, quantile } from './measuring.mjs'

/** The first of a board makes it known, and code that has never run is slow: these are not counted. */
const WARM_UP = 5
const LINES = 300
/** longer than the stream gathers readings: each of these comes after silence, as in a class it does */
const APART_MS = 130

/** Writes lines and waits for each to be heard of. @returns ms each took */
async function timesOf(terminal, waitFor) {
  const took = []
  for (let line = 0; line < WARM_UP + LINES; line++) {
    const heard = waitFor(line)
    const begun = performance.now()
    terminal.write(
      Buffer.from(`[{"bn":"b/","n":"startup","v":1},{"n":"message","v":${line}},{"n":"x","v":${line}}]\n`),
    )
    await heard
    if (line >= WARM_UP) took.push(performance.now() - begun)
    await pause(APART_MS)
  }
  return took
}

/** Calls back for each event of the live stream, until it is left. */
async function follow(address, onEvent) {
  const leaving = new AbortController()
  const response = await fetch(`${address}/api/stream`, { signal: leaving.signal })
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader()
  const reading = (async () => {
    let text = ''
    for (;;) {
      const { value, done } = await reader.read()
      if (done) return
      const events = (text + value).split('\n\n')
      text = events.pop()
      for (const event of events) if (event.startsWith('event: readings')) onEvent(event)
    }
  })().catch(() => {})
  return async () => {
    leaving.abort()
    await reading
  }
}

async function throughHub() {
  const terminal = await openPseudoTerminal(() => {})
  const hub = await startHub(freshFolder(), '--serial', terminal.path)
  while (!terminal.isListenedTo()) await pause(20)
  await pause(300)
  let told = () => {}
  const leave = await follow(hub.address, () => told())
  const took = await timesOf(terminal, () => new Promise((resolve) => (told = resolve)))
  await leave()
  await hub.stop()
  terminal.unplug()
  await terminal.unplugged
  return took
}

async function bareWire() {
  const terminal = await openPseudoTerminal(() => {})
  const port = new SerialPort({ path: terminal.path, baudRate: 115_200 })
  await new Promise((resolve) => port.once('open', resolve))
  let told = () => {}
  port.on('data', (bytes) => bytes.at(-1) === 0x0a && told())
  const took = await timesOf(terminal, () => new Promise((resolve) => (told = resolve)))
  await new Promise((resolve) => port.close(resolve))
  terminal.unplug()
  await terminal.unplugged
  return took
}

/** From a line written by a board to the event on a page: decoded, calibrated, durable, told. */
export async function measureLatency() {
  const [hub, bare] = await Promise.all([throughHub(), bareWire()])
  const row = (name, number) => ({
    what: `line on the wire to event on the page, ${name}`,
    unit: 'ms',
    hub: number(hub),
    limits: [
      ['to a bare serial port', number(bare)],
      ['a person sees no delay', 20, { atMost: 1 }],
    ],
  })
  return [row('median', median), row('p99', (numbers) => quantile(numbers, 0.99))]
}
