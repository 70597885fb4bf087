import { afterEach, expect, test } from 'vitest'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { type Visit, visit } from '../support/browser.ts'
import { startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

test('a decision that is being written stays on the page while values are worked out anew', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '10', '--seed', '7'] })
  const survey = await hub.until(
    () => hub.get<SurveyFile>('/api/surveys/rehearsal-7').catch(() => null),
    (kept) => kept !== null,
  )
  visited = await visit(`${hub.address}/survey/rehearsal-7/quadrat/Q1`)
  const { page, complaints } = visited
  const probe = survey!.placements.find(
    ({ probe: id, quadrat }) =>
      quadrat === 'Q1' && survey!.probes.find((each) => each.id === id)?.quantity === 'soil_temperature',
  )!.probe
  await page.locator(`[data-by-hand="${probe}"]`).click()
  // a whole day: whatever has come so far lies in it
  const day = (await hub.now()).nowMs
  const wall = (ms: number) => new Date(ms).toISOString().slice(0, 19)
  await page.getByLabel('from', { exact: true }).fill(wall(day - 86_400_000))
  await page.getByLabel('to, not included').fill(wall(day + 86_400_000))
  await expect.poll(() => page.locator('[data-span-count]').getAttribute('data-span-count')).toMatch(/[1-9]/)
  await page.getByLabel('What happened?').fill('somebody stepped on it')

  const { withdrawn: _, ...calibration } = survey!.calibrations.find((each) => each.probe === probe)!
  const refusedName = await hub
    .send('POST', '/api/surveys/rehearsal-7/calibrations', { ...calibration, id: 'again', by: 'Ella Smith' })
    .catch(String)
  expect(refusedName).toContain('no names')
  await hub.send('POST', '/api/surveys/rehearsal-7/calibrations', {
    ...calibration,
    id: 'again',
    by: 'G3',
    recipe: { ...calibration.recipe, offsetCelsius: 0.1 },
  })
  await hub.until(
    () => hub.get<SurveyFile>('/api/surveys/rehearsal-7'),
    ({ calibrations }) => calibrations.some(({ id }) => id === 'again'),
  )
  const seen = new Set<string>()
  for (let look = 0; look < 20; look++) {
    seen.add(await page.getByLabel('What happened?').inputValue({ timeout: 1000 }))
    await page.waitForTimeout(100)
  }
  expect([...seen]).toEqual(['somebody stepped on it'])
  await page.locator('[data-decide="exclude"]').click()
  await page.getByText('somebody stepped on it').first().waitFor()
  expect(complaints).toEqual([])
  await hub.stop()
}, 120_000)
