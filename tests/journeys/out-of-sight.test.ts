import type { Page } from 'playwright-core'
import { afterEach, expect, test } from 'vitest'
import { type Visit, visit } from '../support/browser.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

const nameSurvey = (hub: HubProcess, title: string) =>
  hub.send('PUT', '/api/surveys/example', { ...exampleSurvey(), title })

/** As a phone that is put away, or a tab behind another one. */
const putAway = (page: Page, isAway: boolean) =>
  page.evaluate((hidden) => {
    Object.defineProperty(document, 'hidden', { value: hidden, configurable: true })
    document.dispatchEvent(new Event('visibilitychange'))
  }, isAway)

test('a page that was out of sight shows, when it comes back, what somebody changed meanwhile', async () => {
  const hub = await startHub()
  await nameSurvey(hub, 'Before')
  visited = await visit(`${hub.address}/survey/example`)
  const { page } = visited
  await page.getByRole('heading', { name: 'Before' }).waitFor()
  await putAway(page, true)
  await nameSurvey(hub, 'Meanwhile')
  await page.waitForTimeout(1000)
  await page.getByRole('heading', { name: 'Before' }).waitFor()
  await putAway(page, false)
  await page.getByRole('heading', { name: 'Meanwhile' }).waitFor()
  await hub.stop()
}, 60_000)

/** Opens a survey's page; the survey is saved when it first asks for an address, before that is answered. */
async function openWhileSaved(hub: HubProcess, page: Page, address: string, after?: Promise<unknown>) {
  await page.route(
    address,
    async (route) => {
      await after
      await nameSurvey(hub, 'Just in time')
      await route.continue()
    },
    { times: 1 },
  )
  await page.goto(`${hub.address}/survey/example`)
  await page.getByRole('heading', { name: 'Just in time' }).waitFor()
}

test('a survey that came between its own answer and the hub’s is on the page', async () => {
  const hub = await startHub()
  visited = await visit('about:blank')
  const { page } = visited
  const refused = page.waitForResponse('**/api/surveys/example')
  await openWhileSaved(hub, page, '**/api/hub', refused)
  await hub.stop()
}, 60_000)

test('a survey that came between the first answer and the first event is on the page', async () => {
  const hub = await startHub()
  visited = await visit('about:blank')
  const { page } = visited
  // a line of the page's own, which opens only after somebody has loaded the survey
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'SharedWorker'))
  await openWhileSaved(hub, page, '**/api/stream*')
  expect(await page.getByText('not in the notebook').count()).toBe(0)
  await hub.stop()
}, 60_000)
