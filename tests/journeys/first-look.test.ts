import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { type Visit, visit } from '../support/browser.ts'
import { startHub } from '../support/running-hub.ts'

let visited: Visit | null = null
afterEach(async () => {
  await visited?.close()
  visited = null
})

interface Truth {
  kind?: string
  board: string
  quantity: string | null
  quadrat: string | null
  signal: number
  truth: number
}

test('a rehearsal seen by a person: values move, a quadrat shows its five series, the download matches the truth', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '20', '--seed', '5'] })
  visited = await visit(hub.address)
  const { page, complaints } = visited

  const light = page.locator('[data-quadrat="Q8"] [data-quantity="illuminance"]').first()
  await light.waitFor({ state: 'attached', timeout: 30_000 })
  const newest = () => light.getAttribute('data-value')
  const first = await newest()
  await expect.poll(newest, { timeout: 20_000 }).not.toBe(first)
  expect(await page.locator('[data-connection]').first().getAttribute('data-connection')).toBe('live')
  expect(await page.locator('[data-quadrat]').count()).toBeGreaterThanOrEqual(8)

  await page.goto(`${hub.address}/survey/rehearsal-5/quadrat/Q3`)
  for (const quantity of ['soil_ph', 'soil_moisture', 'illuminance', 'soil_temperature', 'wind_speed']) {
    const chart = page.locator(`[data-chart="${quantity}"]`)
    await chart.waitFor({ timeout: 20_000 })
    const points = async () => Number(await chart.getAttribute('data-points'))
    const before = await points()
    await expect.poll(points, { timeout: 20_000 }).toBeGreaterThan(before)
  }

  await page.goto(`${hub.address}/survey/rehearsal-5`)
  const button = page.locator('#download-clean')
  await button.waitFor()
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()])
  expect(download.suggestedFilename()).toMatch(/^readings-rehearsal-5-clean\.csv$/)
  const rows = readFileSync(await download.path(), 'utf8')
    .trim()
    .split('\r\n')
  await hub.stop()

  // what the class says its probes should read, by its own file; the class shares no code with the hub
  const truth = readFileSync(join(rehearsalFolder(hub.stdout), 'truth.jsonl'), 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Truth)
    .filter((line) => line.kind === undefined && line.quantity !== null)
  const known = new Map<string, number[]>()
  for (const { quadrat, quantity, signal, truth: value } of truth) {
    const key = `${quadrat} ${quantity} ${signal}`
    known.set(key, [...(known.get(key) ?? []), value])
  }
  // common practice for cheap probes (no source): pH 0.1, 0.2 °C, 0.03 of wetness, 0.35 m/s, light 3 % or 3 lx
  const tolerance: Record<string, (value: number) => number> = {
    soil_ph: () => 0.1,
    soil_temperature: () => 0.2,
    soil_moisture: () => 0.03,
    wind_speed: () => 0.35,
    illuminance: (lux) => Math.max(3, lux * 0.03),
  }
  expect(rows.length).toBeGreaterThan(40)
  for (const row of rows.slice(1)) {
    const cells = row.split(',')
    const [quadrat, quantity, value] = [cells[4]!, cells[5]!, Number(cells[6])]
    const truths = known.get(`${quadrat} ${quantity} ${cells[12]}`)
    expect(truths, row).toBeDefined()
    const nearest = Math.min(...truths!.map((true_) => Math.abs(true_ - value)))
    expect(nearest, row).toBeLessThanOrEqual(tolerance[quantity]!(value))
  }
  expect(complaints).toEqual([])
}, 120_000)

function rehearsalFolder(stdout: string): string {
  return /^ {2}data {3}(.*)$/m.exec(stdout)![1]!
}

test('an empty hub offers both ways on; a survey is set up by hand, and a lost hub is said and found again', async () => {
  const hub = await startHub()
  visited = await visit(hub.address)
  const { page } = visited
  await page
    .getByRole('link', { name: /set up/i })
    .first()
    .waitFor()
  await page
    .getByRole('button', { name: /rehearse/i })
    .first()
    .waitFor()
  const { dataFolder, address } = hub
  await hub.kill()
  await expect
    .poll(() => page.locator('[data-connection]').first().getAttribute('data-connection'), {
      timeout: 20_000,
    })
    .toBe('lost')
  await page
    .getByText(/does not answer/i)
    .first()
    .waitFor()
  const again = await startHub({ dataFolder, args: ['--port', new URL(address).port] })
  await expect
    .poll(() => page.locator('[data-connection]').first().getAttribute('data-connection'), {
      timeout: 20_000,
    })
    .toBe('live')
  await again.stop()
}, 90_000)

test('nothing on a phone 360 px wide has to be scrolled sideways', async () => {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '20'] })
  visited = await visit(hub.address, { width: 360, height: 740 })
  const { page, complaints } = visited
  for (const path of ['/', '/boards', '/set-up', '/quarantine', '/survey/rehearsal-7/quadrat/Q1', '/bench']) {
    await page.goto(`${hub.address}${path}`)
    await page.locator('h1, h2').first().waitFor()
    await page.waitForTimeout(700)
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, window.innerWidth])
    expect([path, widths[0]! <= widths[1]!]).toEqual([path, true])
  }
  expect(complaints).toEqual([])
  await hub.stop()
}, 90_000)
