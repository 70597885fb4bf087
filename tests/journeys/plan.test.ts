import type { Page } from 'playwright-core'
import { encode } from 'uqr'
import { afterEach, expect, test } from 'vitest'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { type Visit, visit } from '../support/browser.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { networkTo } from '../support/network-between.ts'
import { startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

/** Every quadrat of the list with its place, such as `4.5 1.5`. */
const placesOf = (page: Page) =>
  page
    .locator('[data-quadrat-line]')
    .evaluateAll((lines) =>
      lines.map((line) => [line.getAttribute('data-quadrat-line'), line.getAttribute('data-at')] as const),
    )

const squares = (page: Page, count: number) =>
  expect.poll(() => page.locator('[data-square]').count(), { timeout: 20_000 }).toBe(count)

/** The hub has answered to what was typed last. */
const drawn = (page: Page) => page.locator('[data-busy="false"]').waitFor()

test('a plot with random quadrats from a blank hub: drawn to scale, one place rejected, kept, cards, a shorter walk', async () => {
  const hub = await startHub()
  visited = await visit(`${hub.address}/set-up`)
  const { page, complaints } = visited
  await page.getByLabel('a plot, quadrats in it').check()
  await squares(page, 10)
  await page.getByLabel('Title').fill('Meadow, June')
  await page.getByLabel('Site', { exact: true }).fill('Hollow lane')
  await page.getByLabel('Width, m').fill('12')
  await page.getByLabel('Bearing, °').fill('30')
  await page.locator('[data-plot="P1"][data-scale]').waitFor()
  await page.locator('[data-north="-30"]').waitFor()

  // true size: a frame of 0.5 m on the drawing's own scale
  const scale = Number(await page.locator('[data-plot="P1"]').getAttribute('data-scale'))
  const side = Number(await page.locator('[data-square="Q1"] rect').getAttribute('width'))
  expect(side).toBeCloseTo(0.5 * scale, 6)

  await page.locator('#plan-quadrats > summary').click()
  await drawn(page)
  const before = await placesOf(page)
  await page.getByRole('button', { name: 'Change Q3' }).click()
  await page.locator('[data-reject="Q3"]').click()
  await page.getByText('Say why: it stays on record.').waitFor()
  await page.getByLabel('Why not here?').fill('on the path')
  await page.locator('[data-reject="Q3"]').click()
  await page.locator(`[data-rejected="${before[2]![1]}"]`).waitFor()
  const third = page.locator(`[data-quadrat-line="Q3"]:not([data-at="${before[2]![1]}"])`)
  await third.waitFor({ timeout: 10_000 })
  await drawn(page)
  const after = await placesOf(page)
  expect(after.map(([label]) => label)).toEqual(before.map(([label]) => label))
  expect(after.filter((_, index) => index !== 2)).toEqual(before.filter((_, index) => index !== 2))

  // nothing is kept before it is asked for
  expect((await hub.now()).surveys).toEqual([])
  await page.locator('#keep-plan').click()
  await page.waitForURL(`${hub.address}/survey/meadow-june`)
  const survey = () => hub.get<SurveyFile>('/api/surveys/meadow-june')
  const kept = await survey()
  expect(kept.quadrats.map(({ label, xMetres, yMetres }) => [label, `${xMetres} ${yMetres}`])).toEqual(after)
  expect(kept.plan).toMatchObject([{ rule: 'random', count: 10, rejected: [{ reason: 'on the path' }] }])

  await page.goto(`${hub.address}/survey/meadow-june/plan/cards`)
  await page.locator('[data-card="Q6"]').waitFor()
  expect(await page.locator('[data-card]').count()).toBe(10)
  await page.locator('[data-unreachable]').waitFor()
  expect(await page.locator('[data-card="Q6"]').textContent()).toContain('Q six')
  for (const label of ['Q1', 'Q6', 'Q10']) {
    const path = await page.locator(`[data-card="${label}"] .qr path`).getAttribute('d')
    const dark = new Set([...path!.matchAll(/M(\d+) (\d+)h1v1h-1z/g)].map(([, x, y]) => `${x} ${y}`))
    // the library's own matrix of the address that opens this quadrat on a phone
    const { data } = encode(`${hub.address}/carry/meadow-june/${label}`, { ecc: 'M', border: 4 })
    const wished = data.flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? [`${x} ${y}`] : [])))
    expect([...dark].sort()).toEqual(wished.sort())
  }

  await page.goto(`${hub.address}/survey/meadow-june/plan`)
  const proposed = (await page.locator('[data-proposal]').getAttribute('data-proposal'))!.split(' ')
  await page.locator('#take-proposal').click()
  await page.getByText('Changed: the order of visiting.').waitFor()
  expect((await survey()).walk).toBeUndefined()
  await page.locator('#keep-plan').click()
  await page.locator('[data-kept="true"]').waitFor()
  expect((await survey()).walk).toEqual(proposed)
  await page.goto(`${hub.address}/survey/meadow-june/plan/sheet`)
  expect(await page.locator('[data-places]').getAttribute('data-places')).toBe(proposed.join(' '))
  expect(await page.locator('[data-boxes]').getAttribute('data-boxes')).toBe('160')
  expect(complaints).toEqual([])
  await hub.stop()
}, 120_000)

test('a tape is set up with two words; its one sweep is warned of; a measured quadrat is lifted, and it can be taken back', async () => {
  const hub = await startHub()
  visited = await visit(`${hub.address}/set-up`)
  const { page, complaints } = visited
  await squares(page, 10)
  await page.locator('#keep-plan').click()
  await page.getByText('Give the survey a title').first().waitFor()
  await page.getByLabel('Title').fill('Wood edge')
  await page.getByLabel('Site', { exact: true }).fill('Hollow lane')
  await page.locator('#keep-plan').click()
  await page.waitForURL(`${hub.address}/survey/wood-edge`)
  const survey = () => hub.get<SurveyFile>('/api/surveys/wood-edge')
  const first = await survey()
  expect(first.quadrats.map(({ distanceMetres }) => distanceMetres)).toEqual([
    1, 3, 5, 7, 9, 11, 13, 15, 17, 19,
  ])
  await hub.send('POST', '/api/surveys/wood-edge/placements', {
    probe: {
      id: 'temp-1',
      quantity: 'soil_temperature',
      method: { depthCentimetres: 5 },
      board: 'sedge-1',
      channel: 't',
    },
    quadrat: 'Q2',
    from: '2026-06-12T08:00:00Z',
  })

  await page.goto(`${hub.address}/survey/wood-edge/plan`)
  await page.locator('[data-walk-warning]').waitFor()
  const proposed = (await page.locator('[data-proposal]').getAttribute('data-proposal'))!.split(' ')
  await page.locator('#take-proposal').click()
  await page.getByText('Changed: the order of visiting.').waitFor()
  expect(await page.locator('[data-walk-warning]').count()).toBe(0)
  await page.locator('#keep-plan').click()
  await page.locator('[data-kept="true"]').waitFor()
  expect((await survey()).walk).toEqual(proposed)

  // past the end of the tape: said at the field and in the list, and it cannot be kept
  await page.getByLabel('First at, m').fill('21')
  await page.locator('[data-fault="plan[0].firstMetres"]').waitFor()
  await page.getByLabel('First at, m').fill('1')
  await page.getByLabel('Then every, m').fill('6')
  // Q2 is moved from 3 m to 7 m by the rule, and said to be
  await page.getByText(/at another place; what was measured there goes along: Q2/).waitFor()
  await page.getByLabel('Then every, m').fill('20')
  await page
    .getByText('1 quadrat lifted instead of removed, because something was placed or measured there: Q2.')
    .waitFor()
  await page.locator('#keep-plan').click()
  await page.locator('[data-kept="true"]').waitFor()
  expect((await survey()).quadrats.map(({ label, lifted }) => [label, lifted?.reason])).toEqual([
    ['Q1', undefined],
    ['Q2', 'no longer in the plan'],
  ])
  await page.locator('[data-undo]').click()
  await expect.poll(async () => (await survey()).quadrats.length, { timeout: 10_000 }).toBe(10)
  await squares(page, 10)
  expect(complaints).toEqual([])

  await hub.kill()
  await page.getByLabel('Then every, m').fill('4')
  await page
    .getByText(/The hub did not answer/)
    .first()
    .waitFor()
  await squares(page, 10)
}, 120_000)

test('the pages of the plan need no scrolling sideways on a phone 360 px wide', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '20'] })
  await hub.until(
    () => hub.now(),
    ({ surveys }) => surveys.length > 0,
  )
  visited = await visit(hub.address, { width: 360, height: 740 })
  const { page, complaints } = visited
  for (const rest of ['', '/cards', '/sheet', '/enough']) {
    await page.goto(`${hub.address}/survey/rehearsal-7/plan${rest}`)
    await page.locator('h1').waitFor()
    await page.waitForTimeout(700)
    const widths = await page.evaluate(() => [document.querySelector('main')!.scrollWidth, window.innerWidth])
    expect([rest, widths[0]! <= widths[1]!]).toEqual([rest, true])
  }
  expect(complaints).toEqual([])
  await hub.stop()
}, 90_000)

test('two who plan at once: who comes second is told, sees what keeping would undo, and chooses', async () => {
  const hub = await startHub()
  await hub.send('PUT', '/api/surveys/example', exampleSurvey())
  const survey = () => hub.get<SurveyFile>('/api/surveys/example')
  const othersTitle = async (title: string) => {
    const { title: _, ...plan } = await survey()
    await hub.send('PUT', '/api/surveys/example', { ...plan, title })
  }
  visited = await visit(`${hub.address}/survey/example/plan`)
  const { page, complaints } = visited
  await page.locator('#keep-plan').waitFor()

  // nothing typed here: the page simply goes on from theirs
  await othersTitle('Theirs')
  await page.getByRole('heading', { name: 'Plan of Theirs' }).waitFor()
  await expect.poll(() => page.getByLabel('Title').inputValue()).toBe('Theirs')
  expect(await page.getByRole('alert').count()).toBe(0)

  await page.getByLabel('Title').fill('Mine')
  await page.getByText('Changed: the title.').waitFor()
  await othersTitle('Theirs again')
  await page.getByText('Somebody else has kept another plan since you began.').waitFor()
  expect(await page.locator('#keep-plan').textContent()).toBe('Keep mine instead')
  expect((await survey()).title).toBe('Theirs again')
  await page.locator('#take-theirs').click()
  await expect.poll(() => page.getByLabel('Title').inputValue()).toBe('Theirs again')

  await page.getByLabel('Title').fill('Mine')
  await page.getByText('Changed: the title.').waitFor()
  await othersTitle('And again')
  await page.getByText('Somebody else has kept another plan since you began.').waitFor()
  await page.locator('#keep-plan').click()
  await page.locator('[data-kept="true"]').waitFor()
  expect((await survey()).title).toBe('Mine')
  expect(await page.getByRole('alert').count()).toBe(0)

  // what was kept here is not “mine” any more: again the page goes on from theirs
  await othersTitle('Last')
  await page.getByRole('heading', { name: 'Plan of Last' }).waitFor()
  await expect.poll(() => page.getByLabel('Title').inputValue()).toBe('Last')
  expect(await page.getByRole('alert').count()).toBe(0)
  expect(complaints).toEqual([])
  await hub.stop()
}, 120_000)

test('a plan changed while the hub was out of reach is drawn and kept once it answers again', async () => {
  const hub = await startHub()
  await hub.send('PUT', '/api/surveys/example', exampleSurvey())
  const network = await networkTo(hub.address)
  visited = await visit(`${network.address}/survey/example/plan`)
  const { page } = visited
  await page.locator('#keep-plan').waitFor()
  network.lose()
  await page.getByLabel('Title').fill('Far from the Wi-Fi')
  await page.getByText('Not saved: the hub does not answer.').waitFor()
  network.giveBack()
  await page.getByText('Changed: the title.').waitFor({ timeout: 40_000 })
  await page.locator('#keep-plan').click()
  await page.locator('[data-kept="true"]').waitFor()
  expect((await hub.get<SurveyFile>('/api/surveys/example')).title).toBe('Far from the Wi-Fi')
  await network.close()
  await hub.stop()
}, 120_000)
