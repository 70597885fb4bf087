import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterEach, expect, test } from 'vitest'
import { expandedUncertainty, fitCalibration, isRefusal } from '../../calibration/index.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { type Visit, visit } from '../support/browser.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { runTussock } from '../support/tussock-command.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

/** The class's own word for how an electrode really is: the first line of its truth file. */
interface ScenarioTruth {
  calibrations: Record<string, { electrode: { slopeShare: number; offsetMillivolt: number } }>
}

function scenarioOf(hub: HubProcess): ScenarioTruth {
  const folder = /^ {2}data {3}(.*)$/m.exec(hub.stdout)![1]!
  return JSON.parse(readFileSync(join(folder, 'truth.jsonl'), 'utf8').split('\n', 1)[0]!) as ScenarioTruth
}

async function keepIn(page: Page, buffer: string): Promise<void> {
  await page.locator(`[data-put="buffer-${buffer}"]`).click()
  await page.getByText(`is in buffer ${buffer} at 17 °C`).waitFor()
  await page.locator('[name="buffer"]').first().fill(buffer)
  await page.locator('[name="temperatureCelsius"]').first().fill('17')
  // what the probe was in before is steady too: wait until it has begun to move, then until it has settled
  await page.waitForFunction(
    () => document.querySelector<HTMLElement>('[data-steady]')?.dataset['steady'] === 'no',
  )
  await page.waitForFunction(
    () => document.querySelector<HTMLElement>('[data-steady]')?.dataset['steady'] === 'yes',
    null,
    { timeout: 60_000 },
  )
  await page.locator('#keep-point').click()
  await page
    .getByText(/Point \d kept/)
    .first()
    .waitFor()
}

test('at the bench: an electrode in simulated buffers at 17 °C comes out as it truly is, within its stated uncertainty', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--bench', '--speed', '10', '--seed', '7'] })
  visited = await visit(`${hub.address}/bench`)
  const { page, complaints } = visited
  const row = page.locator('[data-probe="ph-2"]').first()
  await row.waitFor({ timeout: 30_000 })
  expect(await row.getAttribute('data-state')).toBe('never calibrated')

  await page.goto(`${hub.address}/bench/rehearsal-7/ph-2`)
  await page.locator('[data-put="water"]').click()
  await page.locator('[data-signal]').first().waitFor({ timeout: 30_000 })
  await keepIn(page, '7')
  await keepIn(page, '4')
  await expect.poll(() => page.locator('[data-verdict]').first().getAttribute('data-verdict')).toBe('pass')

  await page.locator('#accept-calibration').click()
  const survey = await hub.until(
    () => hub.get<SurveyFile>('/api/surveys/rehearsal-7'),
    ({ calibrations }) => calibrations.length === 1,
  )
  const [calibration] = survey.calibrations
  expect(calibration).toMatchObject({ probe: 'ph-2', recipe: { kind: 'ph-electrode' } })
  const fitted = fitCalibration(calibration!.recipe)
  if (isRefusal(fitted)) throw new Error(fitted.message)

  // the class's own numbers, by a formula written here: E = offset − share · 0.198421 · T · (pH − 7)
  const truth = scenarioOf(hub).calibrations['Q2']!.electrode
  const slope = truth.slopeShare * 0.198421 * (273.15 + 17)
  for (const ph of [4, 5.5, 7]) {
    const read = fitted.valueAt(truth.offsetMillivolt - slope * (ph - 7), { temperatureCelsius: 17 })
    if (isRefusal(read) || read.standardUncertainty === null) throw new Error('no value')
    const stated = expandedUncertainty(read.standardUncertainty, read.degreesOfFreedom)
    expect(Math.abs(read.value - ph)).toBeLessThanOrEqual(stated)
  }
  expect(fitted.facts['slopePercent']).toBeCloseTo(truth.slopeShare * 100, 0)
  expect(Math.abs(Number(fitted.facts['offsetMillivolt']) - truth.offsetMillivolt)).toBeLessThan(1)

  await page.goto(`${hub.address}/bench`)
  await expect
    .poll(() => page.locator('[data-probe="ph-2"]').first().getAttribute('data-state'), { timeout: 20_000 })
    .toBe('not checked')
  await page.goto(`${hub.address}/bench/rehearsal-7/ph-2/record/${calibration!.id}`)
  await page.getByText(calibration!.id).first().waitFor()
  expect(complaints).toEqual([])
  await hub.stop()
}, 180_000)

test('buffers whose bottles were swapped fail with advice, and the calibration is not in force', async () => {
  const hub = await startHub({
    args: ['--rehearsal', '--bench', '--faults', 'swapped', '--speed', '20', '--seed', '7'],
  })
  visited = await visit(`${hub.address}/bench/rehearsal-7/ph-2`)
  const { page } = visited
  await page.locator('[data-put="water"]').click()
  await page.locator('[data-signal]').first().waitFor({ timeout: 30_000 })
  await keepIn(page, '7')
  await keepIn(page, '4')
  await expect.poll(() => page.locator('[data-verdict]').first().getAttribute('data-verdict')).toBe('fail')
  await page.getByText(/swap/i).first().waitFor()
  const data = /^ {2}data {3}(.*)$/m.exec(hub.stdout)![1]!
  expect((await runTussock('readiness', '--data', data)).stdout).toMatch(/ph-2 +soil_ph +never calibrated/)
  await hub.stop()
}, 180_000)
