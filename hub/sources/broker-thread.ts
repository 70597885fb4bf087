import { parentPort, workerData } from 'node:worker_threads'
import { BoardKeys } from '../access/board-keys.ts'
import { rehearsalClock, systemClock } from '../clock.ts'
import { HubError, messageOf } from '../errors.ts'
import { clearAfterStart } from '../small-heaps.ts'
import type { BrokerSetting, FromBrokerThread, ToBrokerThread } from './broker-words.ts'
import { startEmbeddedBroker } from './embedded-broker.ts'
import { FrameGatherer } from './frame-batch.ts'
import type { MqttSource } from './mqtt-source.ts'
import type { Frame, Settled } from './source.ts'

// The thread of the embedded broker: packets and acknowledgements, so that storing and talking MQTT go on side by side.

const port = parentPort!
const setting = workerData as BrokerSetting
const tell = (message: FromBrokerThread, transfer: ArrayBuffer[] = []) => port.postMessage(message, transfer)

const keys = new BoardKeys({ all: () => [], set() {}, remove: () => false }, setting.mayBeAnonymous)
keys.replace(setting.hashes)
const { clock } = setting
/** After silence a frame is handed over at once; while more come, what gathers in this time goes together, in one commit. */
const GATHER_MS = 2
const gatherer = new FrameGatherer()
let handedMs = 0
const waiting = new Map<number, Settled>()
let last = 0

function receive(frame: Frame, settled?: Settled): void {
  if (gatherer.count === 0) {
    if (performance.now() - handedMs > GATHER_MS) setImmediate(hand)
    else setTimeout(hand, GATHER_MS)
  }
  gatherer.add(frame)
  waiting.set(++last, settled ?? (() => {}))
}

function hand(): void {
  handedMs = performance.now()
  const batch = gatherer.take()
  tell({ kind: 'frames', batch }, [
    batch.bytes.buffer,
    batch.headOf.buffer,
    batch.arrivedMs.buffer,
    batch.ends.buffer,
  ] as ArrayBuffer[])
}

function settle(number: number, error: Error | null): void {
  const settled = waiting.get(number)
  waiting.delete(number)
  settled?.(error, () => [])
}

let broker: MqttSource | undefined
try {
  broker = await startEmbeddedBroker(
    setting,
    keys,
    receive,
    (board, isUp) => tell({ kind: 'link', board, isUp }),
    clock ? rehearsalClock(clock.startMs, clock.speed, clock.realStartMs) : systemClock,
  )
  tell({ kind: 'listening', port: broker.port, description: broker.description })
  clearAfterStart()
} catch (error) {
  tell({
    kind: 'failed',
    code: error instanceof HubError ? error.code : 'E_HUB',
    message: messageOf(error),
  })
  port.close()
}

port.on('message', async (message: ToBrokerThread) => {
  switch (message.kind) {
    case 'settled':
      for (const [number, why] of message.refused) settle(number, new Error(why))
      for (const number of message.numbers) settle(number, null)
      break
    case 'keys':
      keys.replace(message.hashes)
      break
    case 'say':
      broker?.say(message.board, message.words)
      break
    case 'close':
      await broker?.close()
      tell({ kind: 'closed' })
      port.close()
      break
  }
})
