/** Subscribes to all packs at QoS 1 and counts them, storing nothing. Arguments: port, how many. Prints `done` at the last. */
import { connect } from 'node:net'
import { connectPacket, pubackPacket, subscribePacket } from './mqtt-wire.mjs'

const [port, messages] = process.argv.slice(2).map(Number)
const socket = connect(port, '127.0.0.1').setNoDelay(true)
socket.write(connectPacket('counting'))
let held = Buffer.alloc(0)
let count = 0
socket.on('data', (bytes) => {
  held = held.length > 0 ? Buffer.concat([held, bytes]) : bytes
  const receipts = []
  let at = 0
  for (;;) {
    let length = 0
    let head = at + 1
    for (let shift = 0; head < held.length; shift += 7) {
      const byte = held[head++]
      length |= (byte & 127) << shift
      if (byte < 128) break
    }
    if (head >= held.length || head + length > held.length) break
    const kind = held[at] >> 4
    if (kind === 2) socket.write(subscribePacket('tussock/+/pack'))
    if (kind === 9) console.log('ready')
    if (kind === 3) {
      const topic = held.readUInt16BE(head)
      receipts.push(pubackPacket(held.readUInt16BE(head + 2 + topic)))
      count++
    }
    at = head + length
  }
  held = held.subarray(at)
  if (receipts.length > 0) socket.write(Buffer.concat(receipts))
  if (count >= messages) console.log('done')
})
