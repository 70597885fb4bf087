import { chromium } from 'playwright-core'
import { freshFolder } from './measuring.mjs'

const ARGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** The system's Chromium. */
export function openBrowser(viewport = { width: 1280, height: 900 }) {
  return chromium.launchPersistentContext(freshFolder(), {
    executablePath: '/usr/bin/chromium',
    viewport,
    args: ARGS,
  })
}

/** A page of its own with its protocol session. @param slowdown  of its processor, as a phone is slower than a laptop */
export async function openPage(browser, slowdown = 1) {
  const page = await browser.newPage()
  const protocol = await browser.newCDPSession(page)
  await protocol.send('Performance.enable')
  await protocol.send('HeapProfiler.enable')
  if (slowdown !== 1) await protocol.send('Emulation.setCPUThrottlingRate', { rate: slowdown })
  return { page, protocol }
}

/** Seconds the page's main thread has spent since it was opened, by what it did. */
export async function spentBy(protocol) {
  const { metrics } = await protocol.send('Performance.getMetrics')
  const of = (name) => metrics.find((metric) => metric.name === name).value
  const [script, layout, style] = [of('ScriptDuration'), of('LayoutDuration'), of('RecalcStyleDuration')]
  return { script, layout, style, drawing: script + layout + style, all: of('TaskDuration') }
}

/** JavaScript memory in use after everything that can be freed was freed, MB. */
export async function heapOf(protocol) {
  await protocol.send('HeapProfiler.collectGarbage')
  const { metrics } = await protocol.send('Performance.getMetrics')
  return metrics.find(({ name }) => name === 'JSHeapUsedSize').value / 2 ** 20
}

/** Share of its main thread that a page needs while it does what it does, and where it goes. */
export async function shareDuring(protocol, work) {
  const [before, begun] = [await spentBy(protocol), performance.now()]
  await work()
  const [after, seconds] = [await spentBy(protocol), (performance.now() - begun) / 1000]
  return Object.fromEntries(Object.keys(after).map((name) => [name, (after[name] - before[name]) / seconds]))
}
