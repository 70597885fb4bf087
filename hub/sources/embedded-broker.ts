import { createServer, type Server } from 'node:net'
import { createServer as createSecureServer } from 'node:tls'
import { Aedes, type AuthenticateError } from 'aedes'
import type { BoardKeys } from '../access/board-keys.ts'
import type { Clock } from '../clock.ts'
import { HubError, systemCode } from '../errors.ts'
import type { MqttSource, OnLink } from './mqtt-source.ts'
import type { Receive } from './source.ts'
import { readTopic } from './topic.ts'

/**
 * The hub's own MQTT 3.1.1 broker. A board's message is stored inside `authorizePublish`, the only hook that runs
 * before the broker writes its PUBACK: so acknowledged means durable. An error there withholds the PUBACK.
 */
export async function startEmbeddedBroker(
  at: { host: string; port: number; tls: { cert: string; key: string; port: number } | null },
  keys: BoardKeys,
  receive: Receive,
  onLink: OnLink,
  clock: Clock,
): Promise<MqttSource> {
  const admittedAs = new WeakMap<object, string | null>()
  const broker = await Aedes.createBroker({
    concurrency: 1000,
    queueLimit: 1000,
    maxClientsIdLength: 128,
    authenticate(client, name, password, done) {
      const admitted = keys.admit(name?.toString(), password?.toString())
      if (admitted !== false) admittedAs.set(client, admitted)
      done(admitted === false ? refusal(name?.toString()) : null, admitted !== false)
    },
    /** A board hears what is asked of itself; without a key it may not listen to boards that have one. */
    authorizeSubscribe(client, subscription, done) {
      const [, board] = /^tussock\/([^/+#]+)\/ask$/.exec(subscription.topic) ?? []
      const admitted = admittedAs.get(client) ?? null
      // where boards need no keys, programs beside the hub may listen to all of them
      const isOwn = board !== undefined && keys.maySpeakAs(admitted, board)
      done(null, isOwn || (admitted === null && keys.mayBeAnonymous) ? subscription : null)
    },
    authorizePublish(client, packet, done) {
      const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload
      const source = `mqtt:${client?.id ?? 'hub'}`
      const admitted = client ? (admittedAs.get(client) ?? null) : null
      const [, board] = /^tussock\/([^/]+)\//.exec(packet.topic) ?? []
      if (client && board !== undefined && !keys.maySpeakAs(admitted, board)) {
        const who = admitted === null ? 'a board without a key' : `board "${admitted}"`
        const code = 'E_BOARD_KEY'
        const message = `${who} published to "${packet.topic.slice(0, 120)}", which is another's.`
        receive(
          {
            source,
            arrivedMs: clock.nowMs(),
            format: 'pack',
            board: null,
            bytes: payload,
            fault: { code, message },
          },
          () => done(new Error(code)),
        )
        return
      }
      const reading = readTopic(packet.topic, payload, source, clock.nowMs())
      if (reading.kind === 'link') {
        onLink(reading.board, reading.isUp)
        done(null)
      } else if (reading.kind === 'request') done(null)
      else receive(reading.frame, (error) => done(error))
    },
  })
  const server = createServer(broker.handle)
  const secure = at.tls ? createSecureServer(at.tls, broker.handle) : null
  try {
    await listen(server, at)
    if (secure) await listen(secure, { host: at.host, port: at.tls!.port })
  } catch (error) {
    // the broker's own timers would keep the process from ending
    broker.close()
    throw error
  }
  const port = portOf(server)
  return {
    description: `embedded broker at mqtt://${at.host}:${port}${secure ? `, with TLS at mqtts://${at.host}:${portOf(secure)}` : ''}`,
    port,
    status: () => ({ state: 'open', trouble: null }),
    say(board, words) {
      broker.publish(
        {
          cmd: 'publish',
          topic: `tussock/${board}/ask`,
          payload: Buffer.from(words),
          qos: 1,
          dup: false,
          retain: false,
        },
        () => {},
      )
    },
    close: () =>
      new Promise((resolve) => {
        broker.close(() => server.close(() => (secure ? secure.close(() => resolve()) : resolve())))
      }),
  }
}

function portOf(server: Server): number {
  const address = server.address()
  return typeof address === 'object' && address ? address.port : 0
}

/** MQTT 3.1.1 §3.2.2.3: return code 4, bad user name or password. */
function refusal(name: string | undefined): AuthenticateError {
  const text = name ? `board "${name}" did not show its key` : 'this broker asks boards for a key'
  return Object.assign(new Error(text), { returnCode: 4 }) as AuthenticateError
}

function listen(server: Server, at: { host: string; port: number }): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error) => {
      reject(
        systemCode(error) === 'EADDRINUSE'
          ? new HubError('E_BROKER_PORT', `Another program listens on MQTT port ${at.port} of ${at.host}.`, {
              cause: error,
            })
          : error,
      )
    })
    server.listen(at.port, at.host, resolve)
  })
}
