import { setTimeout as pause } from 'node:timers/promises'
import { openPage, spentBy } from './page-browser.mjs'

const SCROLLS = 40
const HOVERS = 60
const ZOOMS = 30

/** Starts to note how long each frame of a page takes; the function returned stops and gives the times, ms. */
async function noteFrames(page) {
  await page.evaluate(() => {
    const times = []
    let last = performance.now()
    const note = (now) => {
      times.push(now - last)
      last = now
      window.stopNoting = requestAnimationFrame(note)
    }
    window.frameTimes = times
    window.stopNoting = requestAnimationFrame(note)
  })
  return () =>
    page.evaluate(() => {
      cancelAnimationFrame(window.stopNoting)
      // the first is from the start of noting
      return window.frameTimes.slice(1)
    })
}

/** Frame times while `work` goes on, ms. */
async function framesDuring(page, work) {
  const stop = await noteFrames(page)
  await work()
  return stop()
}

async function scroll(page) {
  const { width, height } = page.viewportSize()
  await page.mouse.move(width / 2, height / 2)
  for (let turn = 0; turn < SCROLLS; turn++) {
    await page.mouse.wheel(0, turn < SCROLLS / 2 ? 240 : -240)
    await pause(25)
  }
}

async function hover(page, selector) {
  const box = await page.locator(selector).first().boundingBox()
  for (let step = 0; step < HOVERS; step++) {
    const [x, y] = [(step * 37) % HOVERS, (step * 53) % HOVERS]
    await page.mouse.move(box.x + (box.width * x) / HOVERS, box.y + Math.min(box.height, 500) * (y / HOVERS))
    await pause(16)
  }
}

/** As two fingers do: larger and smaller again. */
async function zoom(protocol) {
  for (let step = 1; step <= ZOOMS; step++) {
    const part = 1 - Math.abs((2 * step) / ZOOMS - 1)
    await protocol.send('Emulation.setPageScaleFactor', { pageScaleFactor: 1 + part })
    await pause(25)
  }
}

/** Turning a tablet: the drawing is laid out anew for another width. */
async function turn(page) {
  const { width, height } = page.viewportSize()
  for (const other of [width - 200, width]) {
    await page.setViewportSize({ width: other, height })
    await pause(300)
  }
}

/**
 * A plan of many quadrats: how long it takes to be drawn, and how smoothly it moves.
 * @param path  of the page on which they are
 * @param drawn  matches each quadrat once it is drawn
 * @param picture  what is hovered over
 */
export async function plannedQuadrats(browser, address, { path, drawn, count, picture }) {
  const { page, protocol } = await openPage(browser)
  await page.goto(address + path, { waitUntil: 'commit' })
  await page.waitForFunction(
    ([selector, wanted]) => document.querySelectorAll(selector).length >= wanted,
    [drawn, count],
    { polling: 'raf', timeout: 60_000 },
  )
  const { all } = await spentBy(protocol)
  await pause(2500)
  const moving = {
    scroll: await framesDuring(page, () => scroll(page)),
    hover: await framesDuring(page, () => hover(page, picture)),
    zoom: await framesDuring(page, () => zoom(protocol)),
    turn: await framesDuring(page, () => turn(page)),
  }
  await page.close()
  return { firstMs: all * 1000, moving }
}
