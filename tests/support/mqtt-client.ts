import mqtt, { type IClientOptions, type MqttClient } from 'mqtt'
import { afterEach } from 'vitest'

const clients: MqttClient[] = []

afterEach(async () => {
  for (const client of clients.splice(0)) await client.endAsync(true)
})

/** A client that is connected, and ended after the test. */
export async function connectMqtt(url: string, options: IClientOptions = {}): Promise<MqttClient> {
  const client = mqtt.connect(url, { reconnectPeriod: 50, ...options })
  clients.push(client)
  // it tries again by itself: an error on the way is no failure of the test
  client.on('error', () => {})
  await new Promise<void>((resolve) => client.once('connect', () => resolve()))
  return client
}

export interface Message {
  topic: string
  text: string
  isRetained: boolean
}

export function nextMessage(client: MqttClient): Promise<Message> {
  return new Promise((resolve) =>
    client.once('message', (topic, payload, { retain }) =>
      resolve({ topic, text: payload.toString('utf8'), isRetained: retain }),
    ),
  )
}

export function whenClosed(client: MqttClient): Promise<void> {
  return new Promise((resolve) => client.once('close', () => resolve()))
}
