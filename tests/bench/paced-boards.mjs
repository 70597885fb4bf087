import { connect } from 'node:net'
import { NEXT_STARTUP, packText } from './class-messages.mjs'
import { connectPacket, publishPacket, text } from './mqtt-wire.mjs'

/**
 * Boards that each send a message every so often, at QoS 1, whatever the hub does; one that is not acknowledged is on its
 * way until it is. Arguments: port, boards, messages of each, ms between two of a board, and so many of the first messages
 * of each that are not timed, because a hub that has just started is still finding its feet (default 0). Prints, as JSON,
 * what was sent and acknowledged, and how long the acknowledgements took.
 */
const [port, boards, messages, everyMs, untimed = 0] = process.argv.slice(2).map(Number)

async function open(index) {
  const socket = connect(port, '127.0.0.1').setNoDelay(true)
  socket.write(connectPacket(`paced-${index}`))
  await new Promise((resolve, reject) => {
    socket.once('error', reject)
    socket.once('data', (bytes) => (bytes[3] === 0 ? resolve() : reject(new Error('refused'))))
  })
  return socket
}

const tookMs = []
let acknowledged = 0

/** @returns when all of a board's messages are acknowledged */
function talk(socket, index) {
  const topic = text(`tussock/board-${index}/pack`)
  const sentAt = new Map()
  let held = Buffer.alloc(0)
  let sent = 0
  return new Promise((resolve, reject) => {
    socket.once('close', () => reject(new Error(`the hub closed the connection of board ${index}`)))
    socket.on('data', (bytes) => {
      held = Buffer.concat([held, bytes])
      for (; held.length >= 4; held = held.subarray(4)) {
        const id = (held[2] << 8) | held[3]
        if (held[0] !== 0x40 || !sentAt.has(id)) throw new Error('not the PUBACK of a message on its way')
        if (id > untimed) tookMs.push(performance.now() - sentAt.get(id))
        sentAt.delete(id)
        acknowledged++
      }
      if (sent === messages && sentAt.size === 0) {
        socket.removeAllListeners('close')
        socket.end()
        resolve()
      }
    })
    const begun = performance.now() + (everyMs * index) / boards
    const send = () => {
      const id = (sent % 65_000) + 1
      sentAt.set(id, performance.now())
      socket.write(publishPacket(topic, id, packText(`board-${index}`, sent, NEXT_STARTUP)))
      sent++
      if (sent < messages) setTimeout(send, Math.max(0, begun + sent * everyMs - performance.now()))
    }
    setTimeout(send, Math.max(0, begun - performance.now()))
  })
}

const sockets = []
for (let index = 0; index < boards; index++) sockets.push(await open(index))
await Promise.all(sockets.map(talk))
tookMs.sort((a, b) => a - b)
const quantile = (share) => tookMs[Math.floor((tookMs.length - 1) * share)]
console.log(
  `done ${JSON.stringify({ sent: boards * messages, acknowledged, p50: quantile(0.5), p99: quantile(0.99), max: quantile(1) })}`,
)
