import mqtt from 'mqtt'
import type { Clock } from '../clock.ts'
import type { MqttSource, OnLink } from './mqtt-source.ts'
import type { Receive } from './source.ts'
import { readTopic } from './topic.ts'
import { troubleText } from './trouble.ts'

/**
 * A broker that is already there. The hub subscribes at QoS 1 with a session that outlives it; the client's
 * `handleMessage` holds each PUBACK back until the message is stored, so the broker sends again what was not.
 */
export function useOutsideBroker(
  url: string,
  clientId: string,
  receive: Receive,
  onLink: OnLink,
  clock: Clock,
  onChange: () => void,
): MqttSource {
  const shownUrl = withoutCredentials(url)
  let trouble: string | null = gone(shownUrl, 'not connected yet')
  const client = mqtt.connect(url, {
    clientId,
    clean: false,
    protocolVersion: 4,
    reconnectPeriod: 2000,
    connectTimeout: 10_000,
    resubscribe: false,
  })
  client.handleMessage = (packet, done) => {
    const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload
    const reading = readTopic(packet.topic, payload, `mqtt:${shownUrl}`, clock.nowMs())
    if (reading.kind === 'link') {
      onLink(reading.board, reading.isUp)
      done()
    } else if (reading.kind === 'request') done()
    else
      receive(reading.frame, (error) => {
        // an acknowledgement that can no longer be sent would hold up what came before the connection closed; a broker
        // that was killed has forgotten that it ever had it, so it is stored all the same
        done(error ?? (client.connected ? undefined : new Error('the connection has closed')))
      })
  }
  client.on('connect', () => {
    client.subscribe(
      { 'tussock/+/pack': { qos: 1 }, 'tussock/+/columns': { qos: 1 }, 'tussock/+/link': { qos: 1 } },
      (error) => {
        trouble = error ? gone(shownUrl, error.message) : null
        onChange()
      },
    )
  })
  client.on('close', () => {
    if (trouble === null) {
      trouble = gone(shownUrl, 'the connection closed')
      onChange()
    }
  })
  client.on('error', (error) => {
    trouble = gone(shownUrl, error.message)
    onChange()
  })
  return {
    description: `broker at ${shownUrl}`,
    port: Number(new URL(url).port || 1883),
    status: () => ({ state: trouble === null ? 'open' : 'gone', trouble }),
    say: (board, words) => {
      client.publish(`tussock/${board}/ask`, words, { qos: 1 })
    },
    close: () => client.endAsync(),
  }
}

/** What may be shown and logged of an address. */
function withoutCredentials(url: string): string {
  const shown = new URL(url)
  shown.username = ''
  shown.password = ''
  return shown.href
}

function gone(url: string, what: string): string {
  return troubleText('E_BROKER_GONE', `The broker at ${url} does not answer (${what}).`)
}
