import { once } from 'node:events'
import { createServer, request } from 'node:http'
import { setTimeout as pause } from 'node:timers/promises'
import { heapOf, openPage } from './page-browser.mjs'

const EVENTS_A_SECOND = 10
const EVENTS_AN_HOUR = 3600 * EVENTS_A_SECOND
/** Faster than the page can take them they would only wait. */
const FED_A_SECOND = 1500
const QUARTERS = 4

/**
 * The hub, but for its live stream: that is an hour of ten events a second, each with a reading of every channel, told as
 * fast as the page takes it.
 */
async function hubWithAnHour(address) {
  const hub = new URL(address)
  const { channels } = await (await fetch(`${address}/api/directory`)).json()
  const { lastMessage, nowMs } = await (await fetch(`${address}/api/hub`)).json()
  let told = 0
  let stream = null
  const eventText = (event) => {
    const timeMs = nowMs + (event * 1000) / EVENTS_A_SECOND
    const message = lastMessage + event + 1
    const rows = channels.map(({ id }, place) => [
      message * 1024 + place,
      id,
      Math.round(timeMs),
      event,
      10 + event,
      0.05,
      1,
    ])
    return `event: readings\nid: ${message}\ndata: ${JSON.stringify({ nowMs: timeMs, rows })}\n\n`
  }
  const server = createServer((incoming, response) => {
    if (incoming.url.startsWith('/api/stream')) {
      response.writeHead(200, { 'content-type': 'text/event-stream; charset=utf-8' })
      response.write('retry: 1000\n\n')
      stream = response
      return
    }
    const headers = { ...incoming.headers, host: hub.host }
    const asked = request({
      host: hub.hostname,
      port: hub.port,
      path: incoming.url,
      method: incoming.method,
      headers,
    })
    asked.once('response', (answer) => {
      response.writeHead(answer.statusCode, answer.headers)
      answer.pipe(response)
    })
    incoming.pipe(asked)
  })
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    address: `http://127.0.0.1:${server.address().port}`,
    /** Tells the next quarter of the hour. @returns the value that its last readings have */
    async tellQuarter() {
      const until = told + EVENTS_AN_HOUR / QUARTERS
      const begun = performance.now() - (told * 1000) / FED_A_SECOND
      for (; told < until; told++) {
        if (!stream.write(eventText(told))) await once(stream, 'drain')
        const aheadMs = begun + (told * 1000) / FED_A_SECOND - performance.now()
        if (aheadMs > 20) await pause(aheadMs)
      }
      return 10 + told - 1
    },
    close: () => server.close(),
  }
}

/** Memory of a page after each quarter of an hour of ten events a second, MB. @param shows  where a newest value stands */
export async function heapOverAnHour(browser, address, path, shows) {
  const hub = await hubWithAnHour(address)
  const { page, protocol } = await openPage(browser)
  await page.goto(hub.address + path)
  await page.locator('[data-connection="live"]').waitFor()
  const heaps = []
  for (let quarter = 0; quarter < QUARTERS; quarter++) {
    const last = await hub.tellQuarter()
    await page.locator(`${shows}[data-value="${last}"]`).first().waitFor({ timeout: 120_000 })
    // charts are drawn after the values, and asked for anew when they have grown long
    await pause(2500)
    heaps.push(await heapOf(protocol))
  }
  await page.close()
  hub.close()
  return heaps
}
