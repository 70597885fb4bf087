import { createServer, type Server } from 'node:net'
import { Aedes } from 'aedes'
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
  at: { host: string; port: number },
  receive: Receive,
  onLink: OnLink,
  clock: Clock,
): Promise<MqttSource> {
  const broker = await Aedes.createBroker({
    concurrency: 1000,
    queueLimit: 1000,
    maxClientsIdLength: 128,
    authorizePublish(client, packet, done) {
      const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload
      const source = `mqtt:${client?.id ?? 'hub'}`
      const reading = readTopic(packet.topic, payload, source, clock.nowMs())
      if (reading.kind === 'link') {
        onLink(reading.board, reading.isUp)
        done(null)
      } else if (reading.kind === 'request') done(null)
      else receive(reading.frame, (error) => done(error))
    },
  })
  const server = createServer(broker.handle)
  try {
    await listen(server, at)
  } catch (error) {
    // the broker's own timers would keep the process from ending
    broker.close()
    throw error
  }
  const address = server.address()
  const port = typeof address === 'object' && address ? address.port : at.port
  return {
    description: `embedded broker at mqtt://${at.host}:${port}`,
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
        broker.close(() => server.close(() => resolve()))
      }),
  }
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
