import { connect } from 'node:net'

/** So many pages that listen to a live stream and do nothing with it. Arguments: port, path, how many. */
const [port, path, count] = process.argv.slice(2)
let bytes = 0
const open = () =>
  new Promise((resolve, reject) => {
    const socket = connect(Number(port), '127.0.0.1')
    socket.once('error', reject)
    socket.write(`GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nAccept: text/event-stream\r\n\r\n`)
    socket.once('data', resolve)
    socket.on('data', (chunk) => {
      bytes += chunk.length
    })
  })
await Promise.all(Array.from({ length: Number(count) }, open))
console.log('listening')
process.once('SIGTERM', () => {
  console.log(`heard ${bytes}`)
  process.exit()
})
