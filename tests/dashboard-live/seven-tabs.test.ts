import { afterEach, expect, test } from 'vitest'
import { type Visit, visit } from '../support/browser.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { startHub } from '../support/running-hub.ts'

/** A browser holds six lines to one host. */
const TABS = 7

let first: Visit | undefined
afterEach(async () => {
  await first?.close()
  first = undefined
})

test('seven tabs side by side are live at once, show each reading, and find out together that the hub is gone', async () => {
  const hub = await startHub()
  await hub.send('PUT', '/api/surveys/example', exampleSurvey())
  first = await visit(`${hub.address}/survey/example`)
  const context = first.page.context()
  const tabs = [first.page]
  while (tabs.length < TABS) {
    const tab = await context.newPage()
    await tab.goto(`${hub.address}/survey/example`)
    tabs.push(tab)
  }
  const eachShows = (selector: string) =>
    Promise.all(tabs.map((tab) => tab.locator(selector).first().waitFor({ timeout: 20_000 })))
  await eachShows('[data-connection="live"]')

  const board = await connectMqtt(hub.mqttUrl)
  for (const celsius of [12.5, 13.5]) {
    await board.publishAsync(
      'tussock/sedge-1/pack',
      JSON.stringify([{ bn: 'sedge-1/' }, { n: 'temperature', u: 'Cel', v: celsius }]),
      { qos: 1 },
    )
    // by its calibration it reads half a degree too much
    await eachShows(`[data-quantity="soil_temperature"][data-value="${celsius - 0.5}"]`)
  }
  await board.endAsync()

  await hub.kill()
  await eachShows('[data-connection="lost"]')
  expect(tabs).toHaveLength(TABS)
}, 120_000)
