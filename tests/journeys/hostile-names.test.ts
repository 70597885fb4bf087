import type { Page } from 'playwright-core'
import { afterEach, expect, test } from 'vitest'
import { SurveyFile } from '../../hub/contract/survey.ts'
import { PICTURES } from '../../hub/study/pictures/picture-names.ts'
import { fillStudy, studySurvey } from '../hub/export/study-hub.ts'
import { type Visit, visit } from '../support/browser.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

const IMAGE = '<img src=x onerror=hit()>'
const SCRIPT = '"><script>hit()</script>'
const SVG = "'><svg onload=hit()>"
const LINK = 'javascript:hit()'
const FORMULA = '=HYPERLINK("javascript:hit()")'
/** right-to-left override and its end, and a letter that is none */
const TURNED = '\u202E1Q\u202C\u0001'
const labels = [IMAGE, SCRIPT, SVG, LINK, FORMULA, TURNED]

/** A survey in which every word that a person may choose is an attack. */
function hostileSurvey(): SurveyFile {
  const survey = studySurvey()
  survey.title = `${IMAGE} ${SCRIPT}`
  survey.site = { ...survey.site, name: `${SVG} ${TURNED}`, notes: `${IMAGE} ${SCRIPT}` }
  survey.transects[0]!.name = IMAGE
  survey.transects[0]!.zones[0]!.name = SCRIPT
  survey.quadrats.push(
    ...labels.map((label, place) => ({ ...survey.quadrats[0]!, label, distanceMetres: place + 3 })),
  )
  survey.boards[0]!.notes = SCRIPT
  survey.probes[0]!.serialNumber = IMAGE
  survey.calibrations[0]!.note = SVG
  survey.decisions![0]!.reason = `${IMAGE} ${FORMULA}`
  // the carried thermometer's board logs at the first of them
  survey.placements.push(
    { probe: 'PH-1', quadrat: IMAGE, from: '2026-06-12T09:01:00Z' },
    { probe: 'TEMP-1', quadrat: SCRIPT, from: '2026-06-12T09:01:00Z' },
  )
  survey.placements[0]!.to = '2026-06-12T09:01:00Z'
  survey.placements[1]!.to = '2026-06-12T09:01:00Z'
  return SurveyFile.parse(survey)
}

const SPECIES = [
  ['quadrat', ...labels, 'Bramble'],
  ...['Q1', 'Q2', ...labels].map((label, place) => [
    label,
    ...labels.map((_, at) => String(at + place)),
    '7',
  ]),
]
  .map((row) => row.map((cell) => `"${cell.replaceAll('"', '""').replace('\u0001', '')}"`).join(','))
  .join('\n')

async function hostileHub(): Promise<HubProcess> {
  const dataFolder = temporaryFolder()
  fillStudy(dataFolder, hostileSurvey())
  const hub = await startHub({ dataFolder })
  const sheet = await hub.request(
    `/api/surveys/example/sheets?kind=species&name=${encodeURIComponent(`${IMAGE}.csv`)}&by=${encodeURIComponent('G3')}`,
    { method: 'POST', body: SPECIES },
  )
  expect(sheet.status).toBe(200)
  // a board is a stranger too: its client id, its topic and its bytes are shown
  const board = await connectMqtt(hub.mqttUrl, { clientId: IMAGE, reconnectPeriod: 0 })
  await board.publishAsync(`tussock/${SCRIPT.replace(/[/+#]/g, '')}/pack`, IMAGE, { qos: 1 })
  await board.publishAsync('tussock/sedge-1/pack', `{"n":"${SVG}"`, { qos: 1 })
  await board.publishAsync('tussock/sedge-1/link', IMAGE, { qos: 1, retain: true })
  await hub.until(
    () => hub.quarantined(),
    (list) => list.length >= 2,
  )
  return hub
}

/** What an attack would have left behind. */
function traces(page: Page): Promise<string[]> {
  return page.evaluate(() => [
    ...('hits' in globalThis ? ['it ran'] : []),
    ...[...document.querySelectorAll('img[src="x"], svg[onload], [onerror], script:not([src])')].map(
      (element) => element.outerHTML,
    ),
    ...[...document.querySelectorAll<HTMLAnchorElement>('a[href^="javascript" i]')].map(
      ({ outerHTML }) => outerHTML,
    ),
  ])
}

async function watchFor(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const run = () => Object.assign(globalThis, { hits: true })
    Object.assign(globalThis, { hit: run, alert: run })
  })
}

const linksOf = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLAnchorElement>('a[href]')]
      .filter(({ origin, pathname }) => origin === location.origin && !pathname.startsWith('/api/'))
      .map(({ pathname }) => pathname),
  )

const BEGINNINGS = [
  '/',
  '/boards',
  '/set-up',
  '/quarantine',
  '/bench',
  '/enter',
  '/survey/example',
  '/survey/example/quality',
  '/survey/example/decisions',
  '/survey/example/plan',
  '/survey/example/field',
  '/survey/example/study',
  '/carry/example',
  ...labels.flatMap((label) => [
    `/survey/example/quadrat/${encodeURIComponent(label)}`,
    `/carry/example/${encodeURIComponent(label)}`,
  ]),
]
const PAGES_AT_MOST = 70

test('names that are attacks are shown as they are on every page, and nothing of them runs', async () => {
  const hub = await hostileHub()
  visited = await visit(hub.address)
  const { page, complaints } = visited
  await watchFor(page)
  const seen = new Set<string>()
  const waiting = [...BEGINNINGS]
  let shown = 0
  while (waiting.length > 0 && seen.size < PAGES_AT_MOST) {
    const path = waiting.shift()!
    if (seen.has(path)) continue
    seen.add(path)
    await page.goto(hub.address + path)
    await page.locator('h1').first().waitFor()
    // lists come after the heading
    await page.waitForLoadState('load')
    await expect.poll(() => page.locator('[aria-busy="true"]').count()).toBe(0)
    expect(await traces(page), path).toEqual([])
    const text = await page.locator('body').textContent()
    if (labels.some((label) => text?.includes(label))) shown++
    waiting.push(...(await linksOf(page)))
  }
  expect(shown).toBeGreaterThan(10)
  expect([...seen].length).toBeGreaterThan(35)
  // a policy that had to stop a script would have said so
  expect(complaints.filter((each) => !/status of 4\d\d/.test(each))).toEqual([])
}, 180_000)

test('report, pictures and downloads carry the names as words', async () => {
  const hub = await hostileHub()
  visited = await visit(hub.address)
  const { page } = visited
  await watchFor(page)
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text())
  })
  const aim = encodeURIComponent(IMAGE + SCRIPT)
  for (const path of [
    `report.html?aim=${aim}`,
    ...Object.keys(PICTURES).map((name) => `pictures/${name}.svg`),
  ]) {
    const response = await page.goto(`${hub.address}/api/surveys/example/${path}`)
    expect([200, 404, 409, 422], `${path} ${await response!.text()}`).toContain(response!.status())
    if (response!.status() !== 200) continue
    expect(await traces(page), path).toEqual([])
    if (path.endsWith('.svg')) expect(await page.locator('parsererror').count(), path).toBe(0)
  }
  expect(await page.evaluate(() => 'hits' in globalThis)).toBe(false)
  expect(complaints.filter((each) => /policy|script/i.test(each))).toEqual([])
  const report = await (await hub.request(`/api/surveys/example/report.html?aim=${aim}`)).text()
  expect(report).toContain('&lt;img src=x onerror=hit()&gt;')
  const pdf = Buffer.from(
    await (await hub.request(`/api/surveys/example/report.pdf?aim=${aim}`)).arrayBuffer(),
  )
  expect(pdf.toString('latin1', 0, 5)).toBe('%PDF-')
  expect(pdf.toString('latin1')).not.toMatch(/\/(JavaScript|JS|Launch|OpenAction)\b/)
  // RFC 4180 text in which no cell begins as a formula does
  const csv = await (await hub.request('/api/export/readings.csv?survey=example&set=all')).text()
  expect(csv).not.toMatch(/(^|,|\n)"?[=+@]/)
  for (const name of ['workbook', 'tables', 'bundle', 'darwin-core']) {
    const download = await hub.request(`/api/surveys/example/export/${name}`)
    expect([200, 409, 422], name).toContain(download.status)
    expect((await download.arrayBuffer()).byteLength, name).toBeGreaterThan(100)
  }
  expect(hub.stderr).toBe('')
}, 120_000)

test('a name as long as a book is refused', async () => {
  const hub = await startHub()
  for (const spoil of [
    (survey: SurveyFile) => (survey.quadrats[0]!.label = 'Q'.repeat(10_000)),
    (survey: SurveyFile) => (survey.title = 'T'.repeat(10_000)),
    (survey: SurveyFile) => (survey.boards[0]!.name = 'b'.repeat(10_000)),
  ]) {
    const survey = studySurvey()
    spoil(survey)
    const init = {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(survey),
    }
    expect((await hub.request('/api/surveys/example', init)).status).toBe(422)
  }
})
