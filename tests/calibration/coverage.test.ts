import { describe, expect, test } from 'vitest'
import {
  type Conditions,
  expandedUncertainty,
  nernstSlope,
  type PhPoint,
  type Recipe,
  type SoilSample,
  steinhartHartOhm,
} from '../../calibration/index.ts'
import { fitted, readAt } from './expect-fitted.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'

const CALIBRATIONS = 10_000

interface Trial {
  recipe: Recipe
  signal: number
  truth: number
  conditions?: Conditions
}

/** Share of simulated calibrations, each with one reading, whose stated 95 % interval holds the truth. */
function coverage(seed: number, simulate: (random: SeededRandom) => Trial): number {
  const random = seededRandom(seed)
  let held = 0
  for (let k = 0; k < CALIBRATIONS; k++) {
    const { recipe, signal, truth, conditions } = simulate(random)
    const value = readAt(fitted(recipe), signal, conditions)
    const half = expandedUncertainty(value.standardUncertainty!, value.degreesOfFreedom)
    if (Math.abs(value.value - truth) <= half) held += 1
  }
  return held / CALIBRATIONS
}

/** 10 000 trials scatter by 0.22 % about 95 %. */
function expectNinetyFive(share: number): void {
  expect(share).toBeGreaterThan(0.94)
  expect(share).toBeLessThan(0.96)
}

function meanAndScatter(numbers: number[]): { mean: number; scatter: number } {
  const mean = numbers.reduce((sum, each) => sum + each, 0) / numbers.length
  const squares = numbers.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  return { mean, scatter: Math.sqrt(squares / (numbers.length - 1)) }
}

/** A beaker whose bottle is within ±0.02 pH of its label, read n times. */
function beaker(
  random: SeededRandom,
  label: number,
  celsius: number,
  share: number,
  offset: number,
  noise: number,
): PhPoint {
  const truePh = label + random.even(-0.02, 0.02)
  const ideal = offset - share * nernstSlope(celsius) * (truePh - 7)
  const { mean, scatter } = meanAndScatter(Array.from({ length: 8 }, () => ideal + random.normal(noise)))
  return { millivolt: mean, temperatureCelsius: celsius, ph: label, scatterMillivolt: scatter, n: 8 }
}

function phTrial(random: SeededRandom, labels: number[]): Trial {
  const share = random.even(0.92, 1.01)
  const offset = random.normal(8)
  const celsius = random.even(5, 30)
  const sample = random.even(5, 30)
  const points = labels.map((label) => beaker(random, label, celsius, share, offset, 0.8))
  const truth = random.even(4.5, 7.5)
  const signal = offset - share * nernstSlope(sample) * (truth - 7) + random.normal(0.8)
  return {
    recipe: { kind: 'ph-electrode', points },
    signal,
    truth,
    conditions: { temperatureCelsius: sample },
  }
}

describe('stated 95 % intervals hold the truth 94–96 % of the time', () => {
  test('a pH electrode against two buffers', () => {
    expectNinetyFive(coverage(1, (random) => phTrial(random, [4, 7])))
  })

  test('a pH electrode against three buffers', () => {
    expectNinetyFive(coverage(2, (random) => phTrial(random, [4, 7, 10])))
  })

  test('a pH electrode against five buffers', () => {
    expectNinetyFive(coverage(3, (random) => phTrial(random, [1.68, 4, 6.86, 7, 9.18])))
  })

  test('a pH electrode whose bottles state a normal uncertainty', () => {
    const simulate = (random: SeededRandom): Trial => {
      const share = random.even(0.92, 1.01)
      const offset = random.normal(8)
      const perPh = share * nernstSlope(20)
      const points = [4, 7].map(
        (ph): PhPoint => ({
          ph,
          millivolt: offset - perPh * (ph + random.normal(0.01) - 7) + random.normal(0.5),
          temperatureCelsius: 20,
          standardUncertaintyPh: 0.01,
          scatterMillivolt: 0.5,
        }),
      )
      const truth = random.even(3.5, 8)
      const signal = offset - perPh * (truth - 7) + random.normal(0.5)
      return {
        recipe: { kind: 'ph-electrode', points },
        signal,
        truth,
        conditions: { temperatureCelsius: 20 },
      }
    }
    expectNinetyFive(coverage(4, simulate))
  })

  test('the temperature of the sample, known to 1.5 °C', () => {
    const simulate = (random: SeededRandom): Trial => {
      const points = [4, 7].map(
        (ph): PhPoint => ({
          ph,
          millivolt: -0.97 * nernstSlope(20) * (ph + random.normal(0.004) - 7),
          temperatureCelsius: 20,
          standardUncertaintyPh: 0.004,
          scatterMillivolt: 0,
        }),
      )
      const celsius = random.even(5, 25)
      const truth = random.even(4, 5)
      const signal = -0.97 * nernstSlope(celsius + random.normal(1.5)) * (truth - 7)
      const conditions = { temperatureCelsius: celsius, temperatureStandardUncertaintyCelsius: 1.5 }
      return { recipe: { kind: 'ph-electrode', points }, signal, truth, conditions }
    }
    expectNinetyFive(coverage(5, simulate))
  })

  test.each([3, 4, 8])('a line through %i points that show their own scatter', (n) => {
    const simulate = (random: SeededRandom): Trial => {
      const slope = random.even(5, 20)
      const points = Array.from({ length: n }, (_, k) => {
        const reference = (10 * k) / (n - 1)
        return { reference, signal: 3 + slope * reference + random.normal(1) }
      })
      const truth = random.even(-1, 11)
      return {
        recipe: { kind: 'line', unit: 'm', points },
        signal: 3 + slope * truth + random.normal(1),
        truth,
      }
    }
    expectNinetyFive(coverage(10 + n, simulate))
  })

  test('a line through two points that state scatter and reference uncertainty', () => {
    const simulate = (random: SeededRandom): Trial => {
      const points = [0, 10].map((reference) => {
        const at = reference + random.normal(0.1)
        const { mean, scatter } = meanAndScatter(Array.from({ length: 6 }, () => 12 * at + random.normal(1)))
        return { reference, signal: mean, standardUncertainty: 0.1, scatter, n: 6 }
      })
      const truth = random.even(0, 10)
      return { recipe: { kind: 'line', unit: 'm', points }, signal: 12 * truth + random.normal(1), truth }
    }
    expectNinetyFive(coverage(20, simulate))
  })

  test('relative wetness between two ends', () => {
    const simulate = (random: SeededRandom): Trial => {
      const end = (at: number) => meanAndScatter(Array.from({ length: 10 }, () => at + random.normal(5)))
      const dry = end(800)
      const wet = end(350)
      const truth = random.even(0, 1)
      return {
        recipe: {
          kind: 'wetness-span',
          drySignal: dry.mean,
          wetSignal: wet.mean,
          dryScatter: dry.scatter,
          wetScatter: wet.scatter,
          n: 10,
        },
        signal: 800 - 450 * truth + random.normal(5),
        truth,
      }
    }
    expectNinetyFive(coverage(21, simulate))
  })

  test.each([1, 2] as const)('volumetric water against oven-dried samples, degree %i', (degree) => {
    const law = (signal: number) => 0.62 - 2.2e-4 * signal + (degree === 2 ? 2e-8 * signal * signal : 0)
    const simulate = (random: SeededRandom): Trial => {
      const samples = Array.from({ length: 6 }, (_, k): SoilSample => {
        const signal = 800 + 330 * k
        const theta = law(signal) + random.normal(0.015)
        return { signal, wetGram: 121 + 80 * theta, dryGram: 121, tinGram: 25, ringCubicCentimetre: 80 }
      })
      const signal = random.even(800, 2400)
      const truth = law(signal) + random.normal(0.015)
      return { recipe: { kind: 'water-content-fit', samples, degree, soil: 'meadow' }, signal, truth }
    }
    expectNinetyFive(coverage(30 + degree, simulate))
  })

  test('a straight light sensor against a reference meter with an error of its own', () => {
    const simulate = (random: SeededRandom): Trial => {
      const meter = 1 + random.normal(0.03)
      const points = [0, 10_000, 20_000, 30_000, 40_000].map((lux) => ({
        lux: lux * meter,
        signal: 20 + lux / 50 + random.normal(6),
      }))
      const truth = random.even(2000, 40_000)
      return {
        recipe: { kind: 'light-span', points, referenceRelativeStandardUncertainty: 0.03 },
        signal: 20 + truth / 50 + random.normal(6),
        truth,
      }
    }
    expectNinetyFive(coverage(40, simulate))
  })

  test('a photoresistor, scattering by 2 % of its resistance', () => {
    const simulate = (random: SeededRandom): Trial => {
      const resistance = (lux: number) => 60_000 * lux ** -0.7 * Math.exp(random.normal(0.02))
      const points = [30, 100, 300, 1000, 3000, 10_000].map((lux) => ({ lux, signal: resistance(lux) }))
      const truth = Math.exp(random.even(Math.log(50), Math.log(8000)))
      return { recipe: { kind: 'light-power', points }, signal: resistance(truth), truth }
    }
    expectNinetyFive(coverage(41, simulate))
  })

  test('a digital thermometer after ice', () => {
    const simulate = (random: SeededRandom): Trial => {
      const off = random.normal(0.2)
      const step = (celsius: number) => Math.round(celsius * 16) / 16
      const bath = random.even(-0.1, 0.1)
      const icePoint = Array.from({ length: 6 }, () => step(off + bath + random.normal(0.05)))
      const truth = random.even(2, 25)
      const signal = step(truth + off + random.normal(0.05))
      return { recipe: { kind: 'digital-temperature', icePoint }, signal, truth }
    }
    expectNinetyFive(coverage(42, simulate))
  })

  test('a thermistor through three reference temperatures known to 0.1 °C', () => {
    const law = { a: 0.001104159, b: 0.000238918, c: 6.931627e-8 }
    const simulate = (random: SeededRandom): Trial => {
      const points = [0, 20, 40].map((celsius) => ({
        celsius: celsius + random.normal(0.1),
        ohm: steinhartHartOhm(celsius, law),
      }))
      const truth = random.even(-5, 45)
      return {
        recipe: { kind: 'thermistor', points, referenceStandardUncertaintyCelsius: 0.1 },
        signal: steinhartHartOhm(truth, law),
        truth,
      }
    }
    expectNinetyFive(coverage(43, simulate))
  })

  test('a cup anemometer fitted to ten pairs', () => {
    const simulate = (random: SeededRandom): Trial => {
      const pairs = Array.from({ length: 10 }, (_, k) => {
        const metresPerSecond = 1 + k
        return { metresPerSecond, hertz: (metresPerSecond - 0.3) / 0.66 + random.normal(0.15) }
      })
      const truth = random.even(2, 10)
      return {
        recipe: { kind: 'cup-anemometer', pairs },
        signal: (truth - 0.3) / 0.66 + random.normal(0.15),
        truth,
      }
    }
    expectNinetyFive(coverage(44, simulate))
  })
})

test('a flat k = 2 would not keep the promise that Student’s t keeps', () => {
  const random = seededRandom(50)
  let flat = 0
  let student = 0
  for (let k = 0; k < CALIBRATIONS; k++) {
    const { mean, scatter } = meanAndScatter([0, 0, 0].map(() => 6 + random.normal(0.12)))
    const standard = scatter / Math.sqrt(3)
    if (Math.abs(mean - 6) <= 2 * standard) flat += 1
    if (Math.abs(mean - 6) <= expandedUncertainty(standard, 2)) student += 1
  }
  expectNinetyFive(student / CALIBRATIONS)
  expect(flat / CALIBRATIONS).toBeLessThan(0.85)
})
