import { createServer } from 'node:http'
import { setTimeout as pause, setImmediate as turn } from 'node:timers/promises'

/**
 * The smallest live stream there can be: each reading is written to each page as it comes, an event of its own.
 * Arguments: readings a message, messages a second. Prints its port.
 */
const [readings, hertz] = process.argv.slice(2).map(Number)
const pages = new Set()
const server = createServer((_, response) => {
  response.writeHead(200, { 'content-type': 'text/event-stream; charset=utf-8' })
  response.write('retry: 1000\n\n')
  pages.add(response)
  response.once('close', () => pages.delete(response))
})
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve))
console.log(`port ${server.address().port}`)
const begun = performance.now()
for (let message = 0; ; message++) {
  for (let place = 0; place < readings; place++) {
    const row = [message * 1024 + place, place, Date.now(), 84.3, 5.93, 0.05, 1]
    const text = `event: readings\nid: ${message}\ndata: ${JSON.stringify({ nowMs: Date.now(), rows: [row] })}\n\n`
    for (const page of pages) page.write(text)
    // what is written in one turn of the event loop would go out together
    await turn()
  }
  // a timer takes a millisecond at the least: one that is late makes it good
  const waitMs = begun + ((message + 1) * 1000) / hertz - performance.now()
  if (waitMs >= 1) await pause(waitMs)
}
