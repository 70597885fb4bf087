import { afterEach, expect, test } from 'vitest'
import type { AddSpot, SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { type Phone, takePhone } from '../dashboard-carry/phone.ts'
import { type NetworkBetween, networkTo } from '../support/network-between.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'

// expected values of this file are counts and times of the journey itself; the five touches are the domain map's, 2.4

const SURVEY = 'rehearsal-7'
const DAY_MS = 86_400_000
const MINUTE_MS = 60_000

let phone: Phone | null = null
let network: NetworkBetween | null = null
afterEach(async () => {
  await phone?.close()
  phone = null
  await network?.close()
  network = null
})

const spotsOf = async (hub: HubProcess) =>
  (await hub.get<{ spots: SpotValue[] }>(`/api/surveys/${SURVEY}/spots`)).spots

/** A rehearsal whose class has said what it has. */
async function startClass(): Promise<HubProcess> {
  const hub = await startHub({ args: ['--rehearsal', '--speed', '10', '--seed', '7'] })
  await hub.until(
    () => hub.now(),
    ({ surveys }) => surveys.some(({ id }) => id === SURVEY),
  )
  return hub
}

/** Marks the electrode on the second board as carried, on the page, and says which group has the phone. */
async function beginCarrying(hub: HubProcess, of: Phone, address = hub.address): Promise<void> {
  const { page } = of
  await page.goto(`${address}/carry/${SURVEY}`)
  const survey = await hub.get<SurveyFile>(`/api/surveys/${SURVEY}`)
  const board = survey.probes.find(({ id }) => id === 'ph-2')!.board
  await page.locator('.carry select').first().selectOption(board)
  await of.touch('[data-carry="ph-2"]')
  await page.locator('.carry-label').fill('G3')
  await of.touch('text=This is us')
  await page.locator('[data-group="G3"]').waitFor()
}

const unsent = (of: Phone) => of.page.locator('[data-unsent]').first().getAttribute('data-unsent')
const heldOn = (of: Phone) => of.page.locator('[data-held]').getAttribute('data-held')

/** Waits until the page may be opened without a network. */
async function untilKept(of: Phone): Promise<void> {
  await of.page.waitForFunction(async () => {
    const shelf = await caches.open('tussock page')
    return (await shelf.keys()).some(({ url }) => url.includes('carry-pages'))
  })
}

test('three replicates at a quadrat in five touches; a reload in between and a lost network lose nothing, and it is sent once', async () => {
  const hub = await startClass()
  phone = await takePhone(DAY_MS)
  network = await networkTo(hub.address)
  phone.mayBeCutOff = true
  const { page } = phone
  await beginCarrying(hub, phone, network.address)

  phone.touches = 0
  await phone.touch('#next-quadrat')
  await phone.touch('#keep-replicate:enabled')
  await expect.poll(() => heldOn(phone!)).toBe('1')
  await untilKept(phone)
  // the phone slept, and the browser threw the page away
  await page.reload()
  await expect.poll(() => heldOn(phone!)).toBe('1')
  expect(new URL(page.url()).pathname).toBe(`/carry/${SURVEY}/Q1`)
  await phone.touch('#keep-replicate:enabled')
  await page.locator('[data-steady="yes"]').waitFor({ timeout: 60_000 })
  network.lose()
  await phone.touch('#keep-replicate:enabled')
  await page.locator('[data-done="Q1"]').waitFor()
  expect(phone.touches).toBeLessThanOrEqual(5)
  expect(await unsent(phone)).toBe('1')
  await page.getByText('1 not yet sent').waitFor()

  await page.reload()
  await expect.poll(() => unsent(phone!)).toBe('1')
  await page.goto(`${network.address}/carry/${SURVEY}`)
  await page.locator('[data-tile="Q1"][data-state="done"]').waitFor()
  expect(await spotsOf(hub)).toEqual([])

  network.giveBack()
  await expect.poll(() => unsent(phone!), { timeout: 60_000 }).toBe('0')
  const [kept, ...more] = await spotsOf(hub)
  expect(more).toEqual([])
  expect(kept).toMatchObject({ quantity: 'soil_ph', n: 3, spot: { quadrat: 'Q1', probe: 'ph-2', by: 'G3' } })
  // the phone's clock is a day ahead: found out, and the times are those of the readings
  expect(kept!.spot.phoneAheadSeconds).toBeGreaterThan(0.9 * (DAY_MS / 1000))
  const { nowMs } = await hub.now()
  for (const { from } of kept!.spot.replicates)
    expect(Math.abs(nowMs - Date.parse(from))).toBeLessThan(60 * MINUTE_MS)
  await page.locator('#next-quadrat', { hasText: 'Q2' }).waitFor()

  // the same capture once more, as from a phone that never heard the answer
  const { id, quadrat, probe, by, replicates } = kept!.spot
  const again: AddSpot = {
    id,
    quadrat,
    probe,
    by: by!,
    held: replicates,
    sentAt: new Date(nowMs).toISOString(),
  }
  const answer = await hub.send<{ isNew: boolean }>('POST', `/api/surveys/${SURVEY}/spots`, again)
  expect(answer.isNew).toBe(false)
  expect(await spotsOf(hub)).toHaveLength(1)
  expect(phone.complaints).toEqual([])
  await hub.stop()
}, 240_000)

test('kept by itself: two touches a quadrat; what was taken is moved, taken back and put back on the phone', async () => {
  const hub = await startClass()
  phone = await takePhone()
  const { page } = phone
  await beginCarrying(hub, phone)
  await page.locator('[data-tile="Q4"]').tap()
  await page.locator('[name="automatic"]').tap()
  await page.locator('[data-done="Q4"]').waitFor({ timeout: 90_000 })

  phone.touches = 0
  await phone.touch('#go-next')
  await page.locator('[data-done]').waitFor({ timeout: 90_000 })
  expect(phone.touches).toBeLessThanOrEqual(2)
  // what the phone shows as done may still be on its way
  await expect
    .poll(async () => (await spotsOf(hub)).map(({ spot, n }) => [spot.quadrat, n]), { timeout: 20_000 })
    .toEqual([
      ['Q5', 3],
      ['Q4', 3],
    ])

  await page.goto(`${hub.address}/carry/${SURVEY}`)
  await phone.touch('#taken-today summary')
  const q5 = page.locator('[data-at="Q5"]')
  await q5.getByText('Put it right').tap()
  await q5.getByText('We stood at another quadrat').tap()
  await q5.locator('select').selectOption('Q6')
  await q5.locator('[data-amend="move"]').tap()
  const moved = page.locator('[data-at="Q6"]')
  await moved.getByText('Put it right').tap()
  await moved.locator('[data-amend="away"]').tap()
  await moved.getByText('Say why').waitFor()
  await moved.getByText('Measured twice by mistake').tap()
  await moved.locator('[data-amend="away"]').tap()
  await moved.getByText('taken back').waitFor()
  expect((await spotsOf(hub)).find(({ spot }) => spot.quadrat === 'Q6')).toMatchObject({
    n: 0,
    spot: { isTakenBack: true, amendments: [{ by: 'G3' }, { by: 'G3' }] },
  })
  await moved.getByText('Put it back').tap()
  await moved.locator('[data-amend="back"]').tap()
  await page.locator('[data-tile="Q6"][data-state="done"]').waitFor()
  expect(phone.complaints).toEqual([])
  await hub.stop()
}, 240_000)

test('a meter without a connection: added on the phone, typed in out of reach of the hub, marked as typed', async () => {
  const hub = await startClass()
  phone = await takePhone(-DAY_MS)
  network = await networkTo(hub.address)
  phone.mayBeCutOff = true
  const { page } = phone
  await page.goto(`${network.address}/carry/${SURVEY}`)
  await phone.touch('#meters summary')
  await page.getByLabel('Accuracy').fill('0,1')
  await phone.touch('#add-typed-meter')
  await page.locator('[data-tile="Q3"]').waitFor()
  const survey = await hub.until(
    () => hub.get<SurveyFile>(`/api/surveys/${SURVEY}`),
    ({ probes, calibrations }) =>
      calibrations.some(({ probe }) => probes.find(({ id }) => id === probe)?.isTyped === true),
  )
  const meter = survey.probes.find(({ isTyped }) => isTyped)!
  expect(meter).toMatchObject({ board: 'by-hand', isCarried: true, quantity: 'soil_ph' })
  expect(survey.calibrations.find(({ probe }) => probe === meter.id)?.recipe).toMatchObject({
    kind: 'already-a-value',
    unit: 'pH',
  })

  await untilKept(phone)
  network.lose()
  await page.goto(`${network.address}/carry/${SURVEY}/Q3`)
  await page.locator('#typed-0').fill('5,92')
  await page.locator('#typed-1').fill('5.9')
  await page.locator('#typed-2').fill('15')
  await page.reload()
  await expect.poll(() => page.locator('#typed-2').inputValue()).toBe('15')
  await phone.touch('#keep-typed')
  await page.getByText('no meter could read this').waitFor()
  expect(await unsent(phone)).toBe('0')
  await page.locator('#typed-2').fill('5.95')
  await phone.touch('#keep-typed')
  await page.locator('[data-done="Q3"]').waitFor()
  expect(await unsent(phone)).toBe('1')

  network.giveBack()
  await expect.poll(() => unsent(phone!), { timeout: 60_000 }).toBe('0')
  const [typed, ...more] = await spotsOf(hub)
  expect(more).toEqual([])
  expect(typed).toMatchObject({ quantity: 'soil_ph', unit: 'pH', spot: { isTyped: true, quadrat: 'Q3' } })
  expect(typed!.replicates.map(({ value }) => value)).toEqual([5.92, 5.9, 5.95])
  const { nowMs } = await hub.now()
  for (const { from } of typed!.spot.replicates)
    expect(Math.abs(nowMs - Date.parse(from))).toBeLessThan(30 * MINUTE_MS)
  expect(phone.complaints).toEqual([])
  await hub.stop()
}, 240_000)
