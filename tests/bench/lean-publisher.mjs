import { connect } from 'node:net'
import { packText } from './class-messages.mjs'
import { connectPacket, publishPacket, text } from './mqtt-wire.mjs'

/**
 * Publishes at QoS 1 as fast as the broker acknowledges, on raw sockets, so that it costs little beside the hub.
 * Arguments: port, connections, messages of each, messages on their way at once. Prints the seconds it took.
 */
const [port, connections, messages, inFlight] = process.argv.slice(2).map(Number)

function publishAll(index) {
  const board = `board-${index}`
  const topic = text(`tussock/${board}/pack`)
  // made beforehand: what is measured is the other side
  const packets = Array.from({ length: messages }, (_, message) =>
    publishPacket(topic, (message % 65_000) + 1, packText(board, message)),
  )
  const socket = connect(port, '127.0.0.1').setNoDelay(true)
  let sent = 0
  let acknowledged = 0
  let held = Buffer.alloc(0)
  const send = () => {
    const until = Math.min(messages, acknowledged + inFlight)
    if (until > sent) socket.write(Buffer.concat(packets.slice(sent, until)))
    sent = until
  }
  return {
    ready: new Promise((resolve, reject) => {
      socket.once('error', reject)
      socket.write(connectPacket(`bench-${index}`))
      socket.once('data', (bytes) =>
        bytes[0] === 0x20 && bytes[3] === 0 ? resolve() : reject(new Error('refused')),
      )
    }),
    run: () =>
      new Promise((resolve, reject) => {
        socket.once('close', () => reject(new Error('the broker closed the connection')))
        socket.on('data', (bytes) => {
          held = held.length > 0 ? Buffer.concat([held, bytes]) : bytes
          // every packet to a publisher at QoS 1 is a PUBACK of four bytes
          const whole = held.length >> 2
          for (let at = 0; at < whole; at++) if (held[at * 4] !== 0x40) throw new Error('not a PUBACK')
          acknowledged += whole
          held = held.subarray(whole * 4)
          if (acknowledged === messages) {
            socket.removeAllListeners('close')
            socket.end()
            resolve()
          } else send()
        })
        send()
      }),
  }
}

const publishers = Array.from({ length: connections }, (_, index) => publishAll(index))
await Promise.all(publishers.map(({ ready }) => ready))
const begun = performance.now()
await Promise.all(publishers.map(({ run }) => run()))
console.log(`seconds ${(performance.now() - begun) / 1000}`)
