/**
 * Runs the files of a Wi-Fi board in MicroPython, with the board's modules supplied by those in this folder. It blocks,
 * as a board does; its sockets are held by the thread that started it.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { parentPort, workerData } from 'node:worker_threads'
import { loadMicroPython } from '@micropython/micropython-webassembly-pyscript/micropython.mjs'
import { RING_BYTES, slots } from './slots.mjs'

const { memory, ring, firmware, standIns, settings, flash, speed } = workerData
const shared = new Int32Array(memory)
const received = new Uint8Array(ring)
const get = (slot) => Atomics.load(shared, slot)
const tell = (kind) => (text) => parentPort.postMessage({ kind, text })

const began = performance.now()
const now = () => Math.round((performance.now() - began) * speed)
let keptFlash = flash

const python = await loadMicroPython({ heapsize: 192 * 1024, stdout: tell('said'), stderr: tell('failed') })

/** A power cut takes everything but what is in flash. */
function keepFlash() {
  let text = null
  try {
    text = python.FS.readFile('/startup.txt', { encoding: 'utf8' })
  } catch {
    // not written yet
  }
  if (text === null || text === keptFlash) return
  keptFlash = text
  tell('flash')(text)
}

let isClosed = true
let halfTurnAtMs = 0
let isMeasured = false

/** Edges of the reed switch since the last time, as `LEVEL:MICROSECONDS`, with its bounces. */
function takeEdges() {
  const hertz = get(slots.cupsMillihertz) / 1000
  if (hertz <= 0) {
    halfTurnAtMs = now()
    return ''
  }
  const edges = []
  while (halfTurnAtMs <= now()) {
    isClosed = !isClosed
    for (let bounce = 0; bounce <= 2 * get(slots.cupsBounces); bounce++) {
      const us = Math.round(halfTurnAtMs * 1000 + bounce * get(slots.cupsBounceUs)) & 0x3fffffff
      edges.push(`${isClosed === (bounce % 2 === 0) ? 0 : 1}:${us}`)
    }
    halfTurnAtMs += 500 / hertz
  }
  return edges.join(',')
}

// numbers beyond 2^31 would be cut on their way to Python, and bytes arrive as hexadecimal digits
python.registerJsModule('_host', {
  now,
  micros: () => Math.round((performance.now() - began) * speed * 1000) & 0x3fffffff,
  rest(ms) {
    keepFlash()
    Atomics.wait(shared, slots.rest, 0, ms / speed)
  },
  take_edges: takeEdges,
  microvolt: (pin) => get(slots.microvolt + pin),
  i2c_write(address, order) {
    isMeasured = order === 0x20
    return address === 0x23 && get(slots.hasLight) === 1
  },
  i2c_read(address) {
    if (address !== 0x23 || get(slots.hasLight) !== 1) return -1
    return isMeasured ? get(slots.lightCount) : 0
  },
  has_thermometer: () => get(slots.hasThermometer) === 1,
  sixteenths: () => get(slots.sixteenths),
  has_wifi: () => get(slots.hasWifi) === 1,
  feed: () => {
    Atomics.add(shared, slots.fed, 1)
  },
  connect(host, port) {
    for (const slot of [slots.isClosed, slots.read, slots.written, slots.isConnected])
      Atomics.store(shared, slot, 0)
    parentPort.postMessage({ kind: 'connect', host, port })
    Atomics.wait(shared, slots.isConnected, 0, 5000)
    return get(slots.isConnected) === 1 ? 0 : 111
  },
  send(hex) {
    if (get(slots.isClosed)) return 1
    parentPort.postMessage({ kind: 'send', hex })
    return 0
  },
  receive(length) {
    const from = get(slots.read)
    const waiting = get(slots.written) - from
    if (waiting === 0) return get(slots.isClosed) ? '' : null
    const count = Math.min(length, waiting)
    const bytes = Buffer.alloc(count)
    for (let i = 0; i < count; i++) bytes[i] = received[(from + i) % RING_BYTES]
    Atomics.store(shared, slots.read, from + count)
    return bytes.toString('hex')
  },
  close: () => parentPort.postMessage({ kind: 'close' }),
})

const isPython = (name) => name.endsWith('.py')
python.FS.mkdir('/lib')
for (const name of readdirSync(standIns).filter(isPython))
  python.FS.writeFile(`/lib/${name}`, readFileSync(`${standIns}/${name}`))
for (const name of readdirSync(firmware).filter(isPython))
  python.FS.writeFile(`/${name}`, readFileSync(`${firmware}/${name}`))
// as a class would: the settings file ends with lines of its own
python.FS.writeFile('/settings.py', `${readFileSync(`${firmware}/settings.py`, 'utf8')}\n${settings}`)
if (flash !== null) python.FS.writeFile('/startup.txt', flash)
// the built-in module is found before any file
python.runPython('import sys, _time\nsys.modules["time"] = _time')
try {
  python.runPython(readFileSync(`${firmware}/main.py`, 'utf8'))
} catch (error) {
  tell('failed')(String(error.message))
}
