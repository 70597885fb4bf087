import mqtt from 'mqtt'
import type { Clock } from '../clock.ts'
import { HubError, messageOf } from '../errors.ts'
import { type BoardLink, EventQueue } from './board-link.ts'

/** Listens to a board through the broker it is connected to. @throws HubError when the broker does not answer */
export async function openMqttLink(url: string, board: string, clock: Clock): Promise<BoardLink> {
  const queue = new EventQueue()
  const client = await mqtt
    .connectAsync(url, { protocolVersion: 4, reconnectPeriod: 0, connectTimeout: 5000 }, false)
    .catch((error: unknown) => {
      throw new HubError(
        'E_BROKER_GONE',
        `The broker at ${shownUrl(url)} does not answer (${messageOf(error)}).`,
      )
    })
  client.on('error', (error) => queue.fail(error))
  client.on('close', () => {
    queue.fail(new HubError('E_BROKER_GONE', `The broker at ${shownUrl(url)} closed the connection.`))
  })
  client.on('message', (topic, payload, { qos, retain }) => {
    const [atMs, text] = [clock.nowMs(), payload.toString('utf8')]
    if (topic.endsWith('/link')) queue.add({ kind: 'link', atMs, text, isRetained: retain })
    else queue.add({ kind: 'heard', atMs, text, qos })
  })
  await client.subscribeAsync([`tussock/${board}/pack`, `tussock/${board}/link`], { qos: 1 })
  return {
    way: 'mqtt',
    board,
    say(words) {
      client.publish(`tussock/${board}/ask`, words, { qos: 1 })
    },
    next: () => queue.next(),
    close: () => client.endAsync(),
  }
}

/** What may be shown of an address: not its password. */
function shownUrl(url: string): string {
  const shown = new URL(url)
  shown.username = ''
  shown.password = ''
  return shown.href
}
