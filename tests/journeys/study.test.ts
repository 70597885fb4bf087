import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterEach, expect, test } from 'vitest'
import { type Visit, visit } from '../support/browser.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

const STUDY = '/survey/rehearsal-7/study'

/** As a class types it: labels in every way, a letter for a digit, one quadrat twice, decimal commas, traces, blanks. */
const MESSY = [
  'Hazel wood to grazed bank (typed by G1)',
  'Species cover (%);Ql;Q 2;Quadrat 3;Q04;05;Q6 ;q7;Q8;Q7',
  'Fescue;2;5,5;8;12;20;47;33;60;90',
  'Bramble;35;12,5;+;0;;4;60;2;',
  'Brambel;1;;;;;;;;',
  'Dog mercury;50;40;-;1O;3;;0;1;',
  'bare ground;5;0;0;0;0;0;0;0;0',
  'total;93;58;;;;;;;',
].join('\r\n')

async function hubWithReadings(): Promise<HubProcess> {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '60', '--seed', '7'] })
  await hub.until(
    () => hub.get<{ summaries: { n: number }[] }>('/api/surveys/rehearsal-7/summary').catch(() => null),
    (summary) => (summary?.summaries.filter(({ n }) => n >= 3).length ?? 0) >= 40,
  )
  return hub
}

async function answer(page: Page, question: string, choice: string): Promise<void> {
  const card = page.locator(`[data-question="${question}"]`)
  await card.waitFor()
  await card.locator(`[data-answer="${choice}"]`).first().click()
  await card.waitFor({ state: 'detached' })
}

async function savedBy(page: Page, click: () => Promise<void>): Promise<Buffer> {
  const [download] = await Promise.all([page.waitForEvent('download'), click()])
  return readFileSync(await download.path())
}

test('a class’s messy spreadsheet becomes answers, a join, statistics, pictures and a report', async () => {
  const hub = await hubWithReadings()
  visited = await visit(`${hub.address}${STUDY}`)
  const { page, complaints } = visited
  const stateOf = (step: string) => page.locator(`[data-step="${step}"]`).getAttribute('data-state')
  await expect.poll(() => stateOf('summary')).toBe('done')
  await expect.poll(() => stateOf('species')).toBe('open')
  expect(await stateOf('join')).toBe('waiting')

  await page.goto(`${hub.address}${STUDY}/species`)
  await page
    .locator('#give-species')
    .setInputFiles({ name: 'class.csv', mimeType: 'text/csv', buffer: Buffer.from(MESSY) })
  await page.getByText('Read with species down and quadrats across.').waitFor()
  await answer(page, 'twice:q7', 'H2')
  await answer(page, 'blank', 'absent')
  // “1O” is not guessed: it is a fault until somebody says to go on without it
  await page.locator('[data-fault="E6"]').waitFor()
  await answer(page, 'faults', 'leave-out')
  await answer(page, 'confirm:Ql', 'Q1')
  await answer(page, 'same:Brambel', 'Bramble')
  // one species now stands in two rows, A4 and A5
  await answer(page, 'twice:Bramble', 'A4')
  await page.getByText('Nothing is left to ask').waitFor()
  await page.reload()
  await page.locator('[data-answered="confirm:Ql"]').waitFor()

  await page.goto(`${hub.address}${STUDY}/join`)
  await page.locator('table[data-rows="8"]').waitFor()
  await page.getByText('Readings: 8 quadrats = 8 joined').waitFor()
  await page.getByText('“05” is Q5: number only').waitFor()

  await page.goto(`${hub.address}${STUDY}/test`)
  const row = page.locator('[data-pair="Soil pH | Fescue"]')
  await row.getByText('say first what you expect').waitFor()
  await row.getByRole('link').click()
  await page.getByLabel('more Fescue where Soil pH is higher').check()
  expect(await page.locator('[data-result]').count()).toBe(0)
  await page.getByRole('button', { name: 'Keep it' }).click()
  await page.locator('[data-result]').waitFor()
  // pH rises from Q1 to Q8 in the class's own site; Fescue follows but for Q6 and Q7: Σd² = 2, ρ = 1 − 12/504 = 0.976,
  // and 8 of 8! orders are as clear as that or clearer, twice for two tails: p = 0.0004
  await page.locator('[data-result]').getByText('+0.98', { exact: true }).waitFor()
  await page.locator('[data-result]').getByText('< 0.001', { exact: true }).first().waitFor()
  await page.getByText('The order goes the way you expected').waitFor()
  await page
    .locator('[data-robustness]')
    .getByText(/In \d+ of 100 redraws/)
    .waitFor()

  const picture = page.locator('[data-picture="scatter"][data-drawn="yes"]')
  await picture.waitFor()
  const isDrawn = () => picture.locator('img').evaluate((image: HTMLImageElement) => image.naturalWidth > 100)
  await expect.poll(isDrawn).toBe(true)
  const png = await savedBy(page, () => picture.getByRole('button', { name: 'Save as PNG' }).click())
  // a PNG begins with these eight bytes: W3C PNG specification, 5.2
  expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10])
  const svg = await savedBy(page, () => picture.getByRole('button', { name: 'Save as SVG' }).click())
  expect(svg.toString('utf8')).toMatch(/<svg[\s\S]*Fescue[\s\S]*<\/svg>/)

  await page.goto(`${hub.address}${STUDY}/report`)
  await page.getByLabel('Aim').fill('Does fescue follow soil pH?')
  await page.getByLabel('Print the results of the tests').check()
  const html = (
    await savedBy(page, () => page.locator('[data-save="report-rehearsal-7.html"]').click())
  ).toString('utf8')
  expect(html).toContain('Does fescue follow soil pH?')
  expect(html).toContain('Fescue')
  const pdf = await savedBy(page, () => page.locator('[data-save="report-rehearsal-7.pdf"]').click())
  expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-')
  await page.getByRole('button', { name: 'Preview it here' }).click()
  await page.frameLocator('iframe.report-preview').getByText('Does fescue follow soil pH?').first().waitFor()

  await page.goto(`${hub.address}${STUDY}/download`)
  const workbook = await savedBy(page, () => page.locator('[data-export="workbook"] button').click())
  expect(workbook.subarray(0, 2).toString('latin1')).toBe('PK')
  expect(complaints).toEqual([])
  await hub.stop()
}, 180_000)

test('on a phone the paper sheet is typed quadrat by quadrat, kept while the page is away, and read by the hub', async () => {
  const hub = await hubWithReadings()
  visited = await visit(`${hub.address}${STUDY}/type`, { width: 360, height: 740 })
  const { page, complaints } = visited
  await page.getByLabel('Species 1', { exact: true }).fill('Moss')
  await page.getByLabel('Moss in Q1').fill('12,5')
  await page.getByRole('button', { name: 'next quadrat' }).click()
  await page.getByLabel('Moss in Q2').fill('+')
  await page.reload()
  await page.getByLabel('Moss in Q1').waitFor()
  expect(await page.getByLabel('Moss in Q1').inputValue()).toBe('12,5')
  const joined = page.waitForResponse((response) => response.url().includes('/join'))
  await page.locator('#send-typed').click()
  await joined
  await page.getByText('typed from paper.csv.').waitFor()
  await page.locator('[data-repair="C2"]').waitFor()

  await page.locator('[data-sheet]').getByRole('button', { name: 'Leave it out' }).click()
  await page.getByText('No table yet').or(page.getByText('left out')).first().waitFor()
  await page.locator('[data-sheet]').getByRole('button', { name: 'Put it back' }).click()
  await page.getByText('typed from paper.csv.').waitFor()

  await page.locator('#give-species').setInputFiles({
    name: 'scan.pdf',
    mimeType: 'application/pdf',
    buffer: Buffer.from('%PDF-1.7 no table'),
  })
  await page.getByText('scan.pdf cannot be read').waitFor()
  await page.getByText('typed from paper.csv stays in use').waitFor()

  for (const path of [
    '',
    '/species',
    '/type',
    '/animals',
    '/summary',
    '/join',
    '/look',
    '/test',
    '/report',
    '/download',
  ]) {
    await page.goto(`${hub.address}${STUDY}${path}`)
    await page.locator('h1').first().waitFor()
    await page.waitForTimeout(900)
    const widths = await page.locator('main').evaluate((main) => [main.scrollWidth, window.innerWidth])
    expect([path, widths[0]! <= widths[1]!]).toEqual([path, true])
  }
  expect(complaints).toEqual([])
  await hub.stop()
}, 120_000)

test('animals come with their effort and the readings of the time their trap stood, or with the reason why not', async () => {
  const hub = await hubWithReadings()
  const { summaries } = await hub.get<{ summaries: { quadrat: string; from: string; to: string }[] }>(
    '/api/surveys/rehearsal-7/summary',
  )
  const { from, to } = summaries.find(({ quadrat }) => quadrat === 'Q3')!
  // whole seconds: the sheet’s times have no fractions
  const written = (time: string) => `${time.slice(0, 10)} ${time.slice(11, 19)}Z`
  const rows = [
    'trap,taxon,count,method,set,checked,traps',
    `q3,ground beetle,6,pitfall trap,${written(from)},${written(to)},3`,
    `P9,springtail,40,extraction funnel,,,`,
  ]
  visited = await visit(`${hub.address}${STUDY}/animals`)
  const { page, complaints } = visited
  await page.locator('#give-animals').setInputFiles({
    name: 'animals.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(rows.join('\r\n')),
  })
  const beetle = page.locator('[data-catch="q3"]')
  await beetle.waitFor()
  // 6 in 3 traps
  await beetle.getByText('3 traps, 2.00 a trap').waitFor()
  await beetle.getByText('Soil temperature').waitFor()
  await page
    .locator('[data-catch="P9"]')
    .getByText('No trap or quadrat of the survey is called “P9”.')
    .waitFor()

  await page.getByText('Type them in').click()
  await page.getByRole('button', { name: 'Go on from the 2 records kept' }).click()
  await page.getByLabel('Trap or quadrat').fill('Q4')
  await page.getByLabel('Animal', { exact: true }).fill('none')
  await page.getByLabel('Count').fill('0')
  await page.getByRole('button', { name: 'Add it to the list' }).click()
  await page.getByRole('button', { name: 'Give 3 records to the hub' }).click()
  await page.locator('[data-catch="Q4"]').getByText('nothing').waitFor()
  expect(await page.locator('[data-catch]').count()).toBe(3)
  expect(complaints).toEqual([])
  await hub.stop()
}, 120_000)
