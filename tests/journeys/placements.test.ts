import { afterEach, expect, test } from 'vitest'
import type { QuadratSeries } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { type Visit, visit } from '../support/browser.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

const SURVEY = '/api/surveys/rehearsal-7'

/** When a probe was read at a quadrat, UTC ms. */
async function timesAt(hub: HubProcess, quadrat: string, probe: string): Promise<number[]> {
  const wish = new URLSearchParams({ from: '2020-01-01T00:00:00Z', quantity: 'soil_ph', steps: '5000' })
  const { series } = await hub.get<{ series: QuadratSeries[] }>(
    `${SURVEY}/quadrats/${quadrat}/series?${wish}`,
  )
  return series.filter((each) => each.probe === probe).flatMap(({ timeMs }) => timeMs)
}

test('nobody pressed next: a stretch is cut on the strip, asked about, its readings move, and undo brings them back', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '20', '--seed', '7'] })
  await hub.until(
    () => hub.now(),
    ({ surveys }) => surveys.length === 1,
  )
  await hub.until(
    () => timesAt(hub, 'Q3', 'ph-3'),
    (times) => times.length >= 8,
  )
  visited = await visit(`${hub.address}/survey/rehearsal-7/field/placements`)
  const { page, complaints } = visited
  const strip = page.locator('[data-probe="ph-3"]')
  await strip.locator('[data-stretch="at Q3"]').click()
  await page.getByLabel('Then it was at').selectOption('Q4')
  await page.locator('[data-correct]').click()
  await page.getByText('say in a few words how that is known').waitFor()
  await page.getByRole('button', { name: 'nobody pressed “next”' }).click()
  await page.locator('[data-correct]').click()
  // ph-4 measures the same way at Q4: asked about, not silently accepted
  await page.getByText('Is it meant so?').waitFor()
  await page.getByText(/ph-4 measures soil_ph the same way at Q4/).waitFor()
  expect(await timesAt(hub, 'Q4', 'ph-3')).toEqual([])
  // a refused request is noted by the browser's console, and is no fault of the page
  expect(complaints.splice(0)).toEqual([expect.stringContaining('409')])

  await page.locator('[data-sure]').click()
  await strip.locator('[data-stretch="at Q4"]').waitFor()
  await page.locator('[data-companions]').getByText('ph-3 and ph-4 at Q4').waitFor()
  const cut = (await hub.get<SurveyFile>(SURVEY)).placements.find(
    ({ probe, quadrat }) => probe === 'ph-3' && quadrat === 'Q4',
  )
  const cutMs = Date.parse(cut!.from)
  const moved = await timesAt(hub, 'Q4', 'ph-3')
  const stayed = await timesAt(hub, 'Q3', 'ph-3')
  expect(moved.length).toBeGreaterThan(0)
  expect(stayed.length).toBeGreaterThan(0)
  expect(Math.min(...moved)).toBeGreaterThanOrEqual(cutMs)
  expect(Math.max(...stayed)).toBeLessThan(cutMs)

  await page.locator('[data-undo]').click()
  await page.getByText(/Taken back: corrected a placement of ph-3: nobody pressed “next”/).waitFor()
  await expect.poll(() => strip.locator('[data-stretch="at Q4"]').count()).toBe(0)
  expect(await timesAt(hub, 'Q4', 'ph-3')).toEqual([])
  expect(await timesAt(hub, 'Q3', 'ph-3')).toEqual(expect.arrayContaining(moved))
  expect(complaints).toEqual([])
  await hub.stop()
}, 120_000)

test('on the page of boards too, a second probe of a kind at a quadrat is asked about', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '20', '--seed', '7'] })
  visited = await visit(`${hub.address}/boards`, { width: 360, height: 740 })
  const { page } = visited
  await page.locator('[data-board="moss-2"] summary').click({ timeout: 30_000 })
  const channel = page.locator('[data-board="moss-2"] [data-channel="ph"]')
  await channel.getByRole('button', { name: 'Change' }).click()
  await channel.getByLabel('Carry it to').selectOption('Q1')
  await channel.getByRole('button', { name: 'It is at Q1 now' }).click()
  await channel.getByText('Is it meant so?').waitFor()
  const placedAtQ1 = async () =>
    (await hub.get<SurveyFile>(SURVEY)).placements.filter(
      ({ probe, quadrat }) => probe === 'ph-2' && quadrat === 'Q1',
    ).length
  expect(await placedAtQ1()).toBe(0)
  await channel.getByRole('button', { name: 'It is meant so' }).click()
  await expect.poll(placedAtQ1).toBe(1)
  await hub.stop()
}, 120_000)
