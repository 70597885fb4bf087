import { describe, expect, it } from 'vitest'
import { type BoardPlan, planBoards } from '../../hub/rehearsal/board-plan.ts'
import { faultsFrom } from '../../hub/rehearsal/fault-names.ts'
import { sampleBoard } from '../../hub/rehearsal/sampling.ts'
import { chanceOf } from '../../hub/rehearsal/seeded-chance.ts'
import { skyOf } from '../../hub/rehearsal/sky.ts'
import { standingFaults } from '../../hub/rehearsal/standing-faults.ts'
import { writeSurveyFile } from '../../hub/rehearsal/survey-file.ts'

// The formulas here are written out again from the domain's rules, and use nothing but the survey's own recipes.

const intervalSeconds = 10
const chance = chanceOf(21)
const sky = skyOf(chance)
const plans = planBoards(8, true)
const survey = writeSurveyFile(chance, plans, 21, 0, intervalSeconds)

function recipeFor(plan: BoardPlan, channel: string): Record<string, unknown> {
  const probe = survey.probes?.find((one) => one.board === plan.name && one.channel === channel)
  const calibration = survey.calibrations?.find((one) => one.probe === probe?.id)
  return calibration?.recipe ?? {}
}

function samplesOf(plan: BoardPlan, faults: string, count = 400) {
  const standing = standingFaults(faultsFrom(faults), chance, sky, plans, intervalSeconds)
  return Array.from({ length: count }, (_, index) => {
    const instantMs = (index + 1) * intervalSeconds * 1000
    const sample = sampleBoard(chance, sky, standing, plan, 0, instantMs, intervalSeconds)
    return Object.fromEntries(
      sample.records.map((record) => [record.channel, { ...record, truth: record.truth ?? Number.NaN }]),
    )
  })
}

function soilPh(recipe: Record<string, unknown>, millivolt: number, soilCelsius: number): number {
  const [seven, four] = recipe['points'] as { millivolt: number; temperatureCelsius: number }[]
  // technical buffer 7: 7.04 at 15 °C, 7.02 at 20 °C; straight line to 17 °C
  const seventeen = 7.04 + ((7.02 - 7.04) * 2) / 5
  const slopeAtBath = (four!.millivolt - seven!.millivolt) / (4 - seventeen)
  const offset = seven!.millivolt + slopeAtBath * (7 - seventeen)
  const slopeInSoil = (slopeAtBath * (soilCelsius + 273.15)) / (seven!.temperatureCelsius + 273.15)
  return 7 + (millivolt - offset) / slopeInSoil
}

describe.each(plans.map((plan) => ({ plan, quadrat: plan.spot.quadrat })))(
  'signals at $quadrat',
  ({ plan }) => {
    const samples = samplesOf(plan, '')

    it('give back the soil pH by the Nernst line through the two buffers', () => {
      for (const { ph, temperature } of samples) {
        // noise of at most 0.75 mV, printed to 0.1 mV, a temperature step of 1/16
        const error = soilPh(recipeFor(plan, 'ph'), ph!.signal, temperature!.truth) - ph!.truth
        expect(Math.abs(error)).toBeLessThan(0.02)
      }
    })

    it('give back wetness, light and temperature by their recipes', () => {
      const span = recipeFor(plan, 'moisture')
      const factor = Number(recipeFor(plan, 'light')['factor'])
      const offset = Number(recipeFor(plan, 'temperature')['offsetCelsius'])
      for (const { moisture, light, temperature } of samples) {
        const dry = Number(span['drySignal'])
        const wetness = (moisture!.signal - dry) / (Number(span['wetSignal']) - dry)
        expect(Math.abs(wetness - moisture!.truth)).toBeLessThan(0.009)
        expect(Math.abs((light!.signal / 1.2) * factor - light!.truth)).toBeLessThan(1 + 0.007 * light!.truth)
        expect(Math.abs(temperature!.signal + offset - temperature!.truth)).toBeLessThan(0.1)
        expect(temperature!.signal * 16).toBe(Math.round(temperature!.signal * 16))
      }
    })

    it('give back the wind to one pulse, and calm as no pulse', () => {
      const recipe = recipeFor(plan, 'wind')
      const onePulse = Number(recipe['slopeMetresPerSecondPerHertz']) / intervalSeconds
      const standstill = Number(recipe['offsetMetresPerSecond'])
      for (const { wind } of samples) {
        if (wind!.signal === 0) {
          expect(wind!.truth).toBeLessThan(standstill + onePulse)
          continue
        }
        const speed = standstill + wind!.signal * Number(recipe['slopeMetresPerSecondPerHertz'])
        expect(Math.abs(speed - wind!.truth)).toBeLessThan(onePulse + 0.001)
        expect(wind!.signal * intervalSeconds).toBeCloseTo(Math.round(wind!.signal * intervalSeconds), 9)
      }
    })
  },
)

describe('the habitat', () => {
  const means = plans.map((plan) => {
    const samples = samplesOf(plan, '')
    const mean = (channel: string) =>
      samples.reduce((sum, sample) => sum + sample[channel]!.truth, 0) / samples.length
    return { light: mean('light'), moisture: mean('moisture'), wind: mean('wind'), ph: mean('ph') }
  })

  it('is dark, moist and still in the wood, and bright, drier and windy on the bank', () => {
    const [wood, bank] = [means[0]!, means[7]!]
    expect(wood.light / bank.light).toBeGreaterThan(0.02)
    expect(wood.light / bank.light).toBeLessThan(0.1)
    expect(wood.moisture - bank.moisture).toBeGreaterThan(0.25)
    expect(bank.wind).toBeGreaterThan(5 * wood.wind)
    expect(bank.ph - wood.ph).toBeGreaterThan(0.8)
  })
})

describe('standing faults', () => {
  it('dry bulb: the slope really is 60–85 % although the calibration says otherwise', () => {
    const standing = standingFaults(faultsFrom('dry-bulb'), chance, sky, plans, intervalSeconds)
    const plan = plans.find((one) => one.name === standing.dryBulbBoard)!
    const late = samplesOf(plan, 'dry-bulb', 1000).slice(-50)
    for (const { ph, temperature } of late) {
      expect(ph!.fault).toBe('dry-bulb')
      expect(
        Math.abs(soilPh(recipeFor(plan, 'ph'), ph!.signal, temperature!.truth) - ph!.truth),
      ).toBeGreaterThan(0.1)
    }
  })

  it('saturated: open quadrats stand at 65535 while the truth is beyond the sensor', () => {
    const full = samplesOf(plans[7]!, 'saturated').filter(({ light }) => light!.fault === 'saturated')
    expect(full.length).toBeGreaterThan(10)
    for (const { light } of full) {
      expect(light!.signal).toBe(65_535)
      expect(light!.truth).toBeGreaterThan(60_000)
    }
    expect(samplesOf(plans[0]!, 'saturated').every(({ light }) => light!.signal < 65_535)).toBe(true)
  })
})
