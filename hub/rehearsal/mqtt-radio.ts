import { connect, type MqttClient } from 'mqtt'
import type { BoardPlan } from './board-plan.ts'

interface RadioEvents {
  onConnected: () => void
  onRequest: (text: string) => void
  onClosed: () => void
}

export function boardTopic(plan: BoardPlan, last: 'pack' | 'link' | 'ask'): string {
  return `tussock/${plan.name}/${last}`
}

/** One connection to the broker, with the board's will; it never connects again by itself. */
export function openRadio(broker: string, plan: BoardPlan, events: RadioEvents): MqttClient {
  const client = connect(broker, {
    clientId: plan.isTwin ? `${plan.name}-twin` : plan.name,
    protocolVersion: 4,
    reconnectPeriod: 0,
    connectTimeout: 5000,
    keepalive: 20,
    will: { topic: boardTopic(plan, 'link'), payload: Buffer.from('lost'), qos: 1, retain: true },
  })
  client.on('error', () => {}) // a close follows
  client.on('close', events.onClosed)
  client.on('message', (_topic, payload) => events.onRequest(payload.toString('latin1')))
  client.on('connect', () => {
    client.subscribe(boardTopic(plan, 'ask'), { qos: 1 }, () => {})
    client.publish(boardTopic(plan, 'link'), 'up', { qos: 1, retain: true }, () => {})
    events.onConnected()
  })
  return client
}
