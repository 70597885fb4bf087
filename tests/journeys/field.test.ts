import { afterEach, expect, test } from 'vitest'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { type Visit, visit } from '../support/browser.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

const PHONE = { width: 360, height: 740 }
const SURVEY = '/api/surveys/rehearsal-7'
const HOUR_MS = 3_600_000

/** A simulated class that has run for a while, with one electrode carried and soil pH wanted at two quadrats only. */
async function classWithOneMeter(): Promise<HubProcess> {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '20', '--seed', '7'] })
  const survey = await hub.until(
    () => hub.get<SurveyFile>(SURVEY).catch(() => null),
    (file) => file !== null,
  )
  await hub.send('PUT', SURVEY, {
    ...survey!,
    site: { ...survey!.site, timeZone: 'Europe/London' },
    probes: survey!.probes.map((probe) => (probe.id === 'ph-2' ? { ...probe, isCarried: true } : probe)),
    placements: survey!.placements.filter(({ probe }) => probe !== 'ph-2'),
    // at twenty times the speed a busy machine is slow to hear them: they are not silent so soon
    boards: survey!.boards.map((board) => ({ ...board, sampleIntervalSeconds: 120 })),
    groups: [{ label: 'G2', quadrats: ['Q4', 'Q5'] }],
    wanted: [{ quantity: 'soil_ph', by: 'carried', replicates: 3, minutes: 6, quadrats: ['Q2', 'Q4'] }],
  })
  const start = Date.parse(survey!.placements[0]!.from)
  // five insertions of 30 s each need three minutes of the class, and what is on its way half a minute more
  await hub.until(
    () => hub.now(),
    ({ nowMs }) => nowMs - start > 240_000,
  )
  return hub
}

function insertions(startMs: number, places: readonly number[]) {
  return places.map((place) => ({
    from: new Date(startMs + place * 30_000).toISOString(),
    to: new Date(startMs + place * 30_000 + 28_000).toISOString(),
    isSteady: true,
  }))
}

test('safe to leave on a phone: one missing replicate keeps the class there and names its quadrat, and then they may go', async () => {
  const hub = await classWithOneMeter()
  const { nowMs } = await hub.now()
  const startMs = nowMs - 220_000
  const keep = (id: string, quadrat: string, places: number[]) =>
    hub.send('POST', `${SURVEY}/spots`, {
      id,
      quadrat,
      probe: 'ph-2',
      by: 'G2',
      sentAt: new Date(nowMs).toISOString(),
      held: insertions(startMs, places),
    })
  await keep('capture-0001', 'Q2', [0, 1, 2])
  await keep('capture-0002', 'Q4', [3, 4])

  visited = await visit(`${hub.address}/survey/rehearsal-7/field/leave`, PHONE)
  const { page } = visited
  const decision = page.locator('[data-may-go]')
  await decision.waitFor()
  // one of three replicates of six minutes
  await expect.poll(() => decision.textContent()).toBe('Not yet: 1 thing, about 2 minutes')
  expect(await page.locator('[data-stop]').count()).toBe(1)
  const stop = page.locator('[data-stop="Q4"]')
  expect(await stop.textContent()).toContain('2 of 3 replicates, 1 more to take')
  expect(await stop.textContent()).toContain('G2')
  await page.locator('#where-we-are').selectOption('Q5')
  await stop.getByText(/nearest: go here first/).waitFor()
  const way = stop.getByRole('link', { name: 'Measure at Q4' })
  expect(await way.getAttribute('href')).toBe('/carry/rehearsal-7/Q4')
  // 12 mm at 96 pixels an inch is 45.4
  expect((await way.boundingBox())!.height).toBeGreaterThanOrEqual(48)

  await keep('capture-0003', 'Q4', [5])
  await expect.poll(() => decision.textContent(), { timeout: 20_000 }).toBe('You may go')
  expect(await page.locator('[data-stop]').count()).toBe(0)

  await page.goto(`${hub.address}/survey/rehearsal-7/field/return`)
  await page.locator('[data-cell="Q4 soil_ph"][data-state="complete"]').waitFor()
  await page.locator('[data-cell="Q1 soil_ph"][data-state="not wanted"]').waitFor()
})

test('an overdue live trap stands on every page of the notebook until somebody has looked', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--seed', '7'] })
  await hub.until(
    () => hub.get<SurveyFile>(SURVEY).catch(() => null),
    (file) => file !== null,
  )
  const { nowMs } = await hub.now()
  await hub.send('POST', `${SURVEY}/traps`, {
    method: 'live mammal trap',
    quadrat: 'Q3',
    setAt: new Date(nowMs - 26.5 * HOUR_MS).toISOString(),
    checkWithinHours: 24,
  })
  visited = await visit(`${hub.address}/`, PHONE)
  const { page } = visited
  const alarm = page.locator('[data-trap-alarm="1"]')
  const ofSurvey = '/survey/rehearsal-7'
  for (const path of [
    '/',
    ofSurvey,
    `${ofSurvey}/quadrat/Q3`,
    `${ofSurvey}/quality`,
    `${ofSurvey}/decisions`,
    `${ofSurvey}/plan`,
    `${ofSurvey}/study`,
    `${ofSurvey}/field`,
    `${ofSurvey}/field/leave`,
    `${ofSurvey}/field/depart`,
    `${ofSurvey}/field/return`,
    '/carry/rehearsal-7',
    '/boards',
    '/bench',
    '/quarantine',
    '/set-up',
    '/nowhere-at-all',
  ]) {
    await page.goto(hub.address + path)
    await alarm.waitFor({ timeout: 15_000 })
    expect(await alarm.isVisible(), path).toBe(true)
    expect(await alarm.textContent(), path).toContain('live mammal trap at Q3: 2 h 30 min over')
  }
  const sound = alarm.getByRole('button', { name: /Sound/ })
  expect(await sound.getAttribute('aria-pressed')).toBe('false')
  await sound.click()
  expect(await sound.getAttribute('aria-pressed')).toBe('true')

  await alarm.getByRole('link').click()
  await page.waitForURL('**/field/traps')
  const trap = page.locator('[data-trap="trap-1"]')
  await trap.getByRole('button', { name: 'Looked at, set again' }).click()
  await alarm.waitFor({ state: 'detached' })
  await page.locator('[data-trap="trap-1"][data-state="set"]').waitFor()
  await trap.getByText('Looked at once').click()
  await trap.getByRole('button', { name: 'Take the last look back' }).click()
  await alarm.waitFor()
  await trap.getByRole('button', { name: 'Taken up' }).click()
  await alarm.waitFor({ state: 'detached' })
})
