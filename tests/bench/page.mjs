import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { boardNames } from './class-messages.mjs'
import { end, startHub, startProcess } from './hub-process.mjs'
import { freshFolder, median, quantile } from './measuring.mjs'
import { openBrowser, openPage, shareDuring, spentBy } from './page-browser.mjs'
import { firstViewKilobytes } from './page-bundle.mjs'
import { heapOverAnHour } from './page-hour.mjs'
import { plannedQuadrats } from './page-plan.mjs'
import { crowdedSurvey, plotSurvey, SERIES_PER_BOARD, tapeSurvey } from './page-survey.mjs'
import { tabsAtOnce } from './page-tabs.mjs'

const BOARDS = 10
const HERTZ = 10
const PHONE = 4
const MANY = 1000
const TABS = 7
const LIVE_MS = 10_000
const SERIES = BOARDS * SERIES_PER_BOARD
const publisher = fileURLToPath(new URL('./page-boards.mjs', import.meta.url))

/** A hub with one survey and boards that publish to it, for as long as `work` takes. */
async function withHub(survey, work) {
  const hub = await startHub(freshFolder())
  const answer = await fetch(`${hub.address}/api/surveys/${survey.id}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(survey),
  })
  if (!answer.ok) throw new Error(await answer.text())
  const { child } = await startProcess(
    process.execPath,
    [publisher, String(hub.mqttPort), String(BOARDS), String(HERTZ)],
    /publishing/,
  )
  const browser = await openBrowser()
  try {
    await pause(2000)
    return await work(hub, browser, () => end(child))
  } finally {
    await browser.close()
    child.kill('SIGTERM')
    await hub.stop()
  }
}

const allValuesShown = (wanted) =>
  document.querySelectorAll('.number[data-value]:not([data-value=""])').length >= wanted

/** The first page in a fresh browser, until every value stands there: ms of script, style and layout. */
async function firstView(address) {
  const browser = await openBrowser()
  const { page, protocol } = await openPage(browser, PHONE)
  await page.goto(`${address}/survey/tape`, { waitUntil: 'commit' })
  await page.waitForFunction(allValuesShown, SERIES, { polling: 'raf' })
  const { drawing } = await spentBy(protocol)
  await browser.close()
  return drawing * 1000
}

/** Share of the main thread of a page that follows all series, % */
async function liveShare(browser, address, slowdown, ready) {
  const { page, protocol } = await openPage(browser, slowdown)
  await page.goto(address)
  await page.locator(ready).first().waitFor()
  await pause(4000)
  const { all } = await shareDuring(protocol, () => pause(LIVE_MS))
  await page.close()
  return all * 100
}

const aim = (number) => [['allowed', number, { atMost: 1 }]]
const row = (what, unit, hub, limits) => ({ what, unit, hub, limits })

async function onTape(runs) {
  return withHub(tapeSurvey(boardNames(BOARDS)), async (hub, browser, silence) => {
    const sheet = `${hub.address}/survey/tape`
    const live = (slowdown, path, ready) => liveShare(browser, sheet + path, slowdown, ready)
    const rows = [
      row(`live at ${HERTZ} Hz, ${SERIES} values`, '% of a thread', await live(1, '', '.number'), aim(15)),
      row(`the same, ${PHONE} times as slow`, '% of a thread', await live(PHONE, '', '.number'), aim(15)),
      row(
        `live at ${HERTZ} Hz, charts of a quadrat`,
        '% of a thread',
        await live(1, '/quadrat/Q3', '[data-chart]'),
        aim(15),
      ),
      row(
        `the slowest of ${TABS} tabs side by side to be live`,
        'ms',
        await tabsAtOnce(browser, sheet, TABS),
        aim(5000),
      ),
    ]
    await silence()
    const firstViews = []
    for (let run = 0; run < runs; run++) firstViews.push(await firstView(hub.address))
    rows.unshift(row(`first view, ${PHONE} times as slow`, 'ms', median(firstViews), aim(1000)))
    for (const [name, path, shows] of [
      ['the tape', '/survey/tape', '[data-quantity="soil_temperature"]'],
      ['a quadrat', '/survey/tape/quadrat/Q3', '[data-quantity="soil_temperature"]'],
    ]) {
      const [quarter, half, , whole] = await heapOverAnHour(browser, hub.address, path, shows)
      rows.push(
        row(`memory of ${name} after an hour`, 'MB', whole, [
          ['after a quarter', quarter],
          ['after a half', half],
        ]),
      )
    }
    return rows
  })
}

async function onCrowdedQuadrat() {
  return withHub(crowdedSurvey(boardNames(BOARDS)), async (hub, browser) => {
    const address = `${hub.address}/survey/crowded/quadrat/Q1`
    const share = await liveShare(browser, address, 1, '[data-chart]')
    return [row(`live at ${HERTZ} Hz, ${SERIES} charts of one quadrat`, '% of a thread', share, aim(15))]
  })
}

async function onPlot() {
  return withHub(plotSurvey(boardNames(BOARDS), MANY), async (hub, browser) => {
    const rows = []
    for (const [name, page] of [
      ['planned', { path: '/survey/plot/plan', drawn: '[data-square]', picture: '.plan-drawing' }],
      ['live', { path: '/survey/plot', drawn: '.plot-table tbody tr', picture: '.plot-table' }],
    ]) {
      const { firstMs, moving } = await plannedQuadrats(browser, hub.address, { ...page, count: MANY })
      rows.push(row(`${MANY} quadrats ${name}: until drawn`, 'ms', firstMs, aim(1500)))
      for (const [how, frames] of Object.entries(moving))
        rows.push(
          row(`${MANY} quadrats ${name}: a frame of ${how}, p95`, 'ms', quantile(frames, 0.95), [
            ...aim(50),
            ['the slowest', Math.max(...frames)],
          ]),
        )
    }
    return rows
  })
}

/** What the page asks of the device it is looked at on. Needs Chromium. */
export async function measurePage(runs = 3) {
  const bundle = row('first view, gzipped', 'kB', firstViewKilobytes(), aim(120))
  return { rows: [bundle, ...(await onTape(runs)), ...(await onCrowdedQuadrat()), ...(await onPlot())] }
}
