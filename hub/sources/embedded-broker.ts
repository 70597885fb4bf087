import { createServer, type Server, type Socket } from 'node:net'
import { createServer as createSecureServer } from 'node:tls'
import { Aedes, type AuthenticateError } from 'aedes'
import type { BoardKeys } from '../access/board-keys.ts'
import { limitPerAddress } from '../access/connections-per-address.ts'
import type { Clock } from '../clock.ts'
import { HubError, systemCode } from '../errors.ts'
import type { MqttSource, OnLink } from './mqtt-source.ts'
import { keepPacketsShort } from './packet-ceiling.ts'
import type { Receive } from './source.ts'
import { readTopic } from './topic.ts'

const CLIENT_ID_LETTERS_AT_MOST = 128
/** a class's boards, and programs beside the hub, with room for those that come back before they were missed */
const CONNECTIONS_AT_MOST = 600
const CONNECTIONS_OF_ONE_ADDRESS = 200
/** Who connects and does not say who it is within this time is let go. */
const CONNECT_MS = 10_000
/** Who does not take what it is sent within this time is let go. */
const DRAIN_MS = 15_000
/** A dead board without a keep-alive of MQTT's is noticed by TCP's. */
const TCP = { keepAlive: true, keepAliveInitialDelay: 60_000 }
/** `up` or `lost` */
const LINK_BYTES_AT_MOST = 64
/** Topics that the broker speaks to itself on, and acts on. */
const BROKERS_OWN = '$'
/** MQTT 3.1.1 §3.2.2.3 */
const REFUSED = { identifier: 2, nameOrKey: 4 }

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
  /** the client id as the client gave it */
  const calls = new WeakMap<object, string>()
  const broker = await Aedes.createBroker({
    concurrency: 1000,
    queueLimit: 1000,
    connectTimeout: CONNECT_MS,
    drainTimeout: DRAIN_MS,
    // judged below for every version of the protocol
    maxClientsIdLength: Number.MAX_SAFE_INTEGER,
    preConnect(client, packet, done) {
      // nothing is kept for who is away: no memory that strangers could fill, and a request is for now or never
      packet.clean = true
      calls.set(client, packet.clientId)
      // an id is a board's own: no other may push it off its connection by calling itself the same
      if (packet.clientId !== '') packet.clientId = JSON.stringify([packet.username ?? null, packet.clientId])
      done(null, true)
    },
    authenticate(client, name, password, done) {
      const admitted = keys.admit(name?.toString(), password?.toString())
      if (admitted === false) done(refusal(name?.toString()), false)
      else if ((calls.get(client) ?? '').length > CLIENT_ID_LETTERS_AT_MOST)
        done(refusedWith(REFUSED.identifier, 'a client id that is too long'), false)
      else {
        admittedAs.set(client, admitted)
        done(null, true)
      }
    },
    /** A board hears what is asked of itself; without a key it may not listen to boards that have one. */
    authorizeSubscribe(client, subscription, done) {
      // what the broker says to itself
      if (subscription.topic.startsWith(BROKERS_OWN)) return done(null, null)
      const [, board] = /^tussock\/([^/+#]+)\/ask$/.exec(subscription.topic) ?? []
      const admitted = admittedAs.get(client) ?? null
      // where boards need no keys, programs beside the hub may listen to all of them
      const isOwn = board !== undefined && keys.maySpeakAs(admitted, board)
      done(null, isOwn || (admitted === null && keys.mayBeAnonymous) ? subscription : null)
    },
    authorizePublish(client, packet, done) {
      const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload
      const source = `mqtt:${client ? calls.get(client) || client.id : 'hub'}`
      const admitted = client ? (admittedAs.get(client) ?? null) : null
      const [, board] = /^tussock\/([^/]+)\//.exec(packet.topic) ?? []
      const isAnothers =
        packet.topic.startsWith(BROKERS_OWN) || (board !== undefined && !keys.maySpeakAs(admitted, board))
      if (client && isAnothers) {
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
      // that a board is there is all that is kept for who comes later; other topics could be without number
      packet.retain &&= reading.kind === 'link' && payload.length <= LINK_BYTES_AT_MOST
      if (reading.kind === 'link') {
        onLink(reading.board, reading.isUp)
        done(null)
      } else if (reading.kind === 'request') done(null)
      else receive(reading.frame, (error) => done(error))
    },
  })
  const handle = (socket: Socket) => void broker.handle(keepPacketsShort(socket))
  const server = createServer(TCP, handle)
  const secure = at.tls
    ? createSecureServer({ ...at.tls, ...TCP, handshakeTimeout: CONNECT_MS }, handle)
    : null
  for (const each of [server, secure]) {
    if (each === null) continue
    each.maxConnections = CONNECTIONS_AT_MOST
    limitPerAddress(each, CONNECTIONS_OF_ONE_ADDRESS)
  }
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

function refusal(name: string | undefined): AuthenticateError {
  const text = name ? `board "${name}" did not show its key` : 'this broker asks boards for a key'
  return refusedWith(REFUSED.nameOrKey, text)
}

function refusedWith(returnCode: number, text: string): AuthenticateError {
  return Object.assign(new Error(text), { returnCode }) as AuthenticateError
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
