import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { phElectrodeDry } from '../../../hub/quality/ph-electrode-dry.ts'
import type { Series } from '../../../hub/quality/quality-test.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, seriesOf } from './series.ts'

const config = phElectrodeDry.defaults['soil_ph']!
/** One reading every 10 s. */
const flags = (signal: number[], signalUnit = 'mV') =>
  phElectrodeDry
    .run(
      seriesOf(
        signal.map(() => 6),
        { signal, signalUnit, expectedIntervalMs: 10_000, quantity: 'soil_ph' },
      ),
      config,
      alone(),
    )
    .map((finding) => (finding === 'not evaluated' ? 2 : (finding?.flag ?? 1)))
const isFlagged = (signal: number[]) => flags(signal).includes(3)
const line = (millivoltPerWindow: number) =>
  Array.from({ length: 37 }, (_, n) => 100 + (millivoltPerWindow * n) / 36)
const settling = (seconds: number, count = 90) =>
  Array.from({ length: count }, (_, n) => 170 * Math.exp((-10 * n) / seconds))

// Common practice, no source.
describe('an electrode that creeps', () => {
  // The means of the first and the last sixth of a straight line lie 5/6 of its way apart: 3 mV of 3.6.
  test('below and above the limit, up and down; the first readings belong to the creep as well', () => {
    expect([3.59, 3.61, -3.59, -3.61].map((way) => isFlagged(line(way)))).toEqual([false, true, false, true])
    expect(flags(line(10))).toEqual(Array(37).fill(3))
    expect(flags(line(0.01), 'V')).toEqual(Array(37).fill(3))
  })

  test('a step is no creep, nor is a good electrode that settles within a minute or two', () => {
    expect(isFlagged([...Array(30).fill(0), ...Array(30).fill(170)])).toBe(false)
    expect([6, 30, 60].map((seconds) => isFlagged(settling(seconds)))).toEqual([false, false, false])
    expect([150, 400].map((seconds) => isFlagged(settling(seconds)))).toEqual([true, true])
  })

  test('to and fro is no creep', () => {
    expect(isFlagged(Array.from({ length: 60 }, (_, n) => 10 * Math.sin(n / 6)))).toBe(false)
  })

  test('short of a window, or with an empty sixth of it, nothing is evaluated', () => {
    expect(flags(line(10).slice(0, 36))).toEqual(Array(36).fill(2))
    const sparse = seriesOf([6, 6, 6], {
      signal: [0, 50, 100],
      signalUnit: 'mV',
      timeMs: [0, 180_000, 360_000],
      expectedIntervalMs: 180_000,
    })
    expect(phElectrodeDry.run(sparse, config, alone())).toEqual([
      'not evaluated',
      'not evaluated',
      'not evaluated',
    ])
    expect(flags(line(10), 'count')).toEqual(Array(37).fill(2))
  })

  // Common practice, no source: put into the soil at reading 400, a dry bulb takes many minutes over the last 40 to 90 mV.
  test('finds a simulated dry bulb with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 8 }, (_, seed) => {
      const clean = quadratOf(seed, 0.5, 10_000, 1500).soil_ph
      const seconds = 200 + 40 * seed
      const farOff = (n: number) => (n < 400 ? 0 : (40 + 7 * seed) * Math.exp((-10 * (n - 400)) / seconds))
      const signal = clean.signal.map((own, n) => own + farOff(n))
      // faulty: in six minutes of which the creep itself, without noise, makes 3.6 mV
      const creepsFrom = (n: number) => n >= 400 && farOff(n) - farOff(n + 36) > 3.6
      return {
        isFaulty: signal.map((_, n) => n >= 400 && creepsFrom(Math.max(400, n - 36))),
        findings: phElectrodeDry.run({ ...clean, signal }, config, alone()),
      }
    })
    const { precision, recall } = scoreOf(runs)
    expect(precision).toBeGreaterThanOrEqual(0.95)
    expect(recall).toBeGreaterThanOrEqual(0.95)
  })

  test('its context is enough however uneven the steps between creeping readings are', () => {
    const run = (series: Series) => phElectrodeDry.run(series, config, alone())
    const { ms, readings } = phElectrodeDry.context(config)
    const steps = fc.array(fc.constantFrom(0, 0, 3000, 10_000, 24_000), { minLength: 60, maxLength: 120 })
    fc.assert(
      fc.property(steps, (stepsMs) => {
        let nowMs = 0
        const timeMs = stepsMs.map((stepMs) => {
          nowMs += stepMs
          return nowMs
        })
        // faster and faster: early windows pass, late ones creep
        const signal = timeMs.map((each) => (each / 200_000) ** 2)
        const whole = seriesOf(
          signal.map(() => 6),
          { timeMs, signal, signalUnit: 'mV', expectedIntervalMs: 10_000, quantity: 'soil_ph' },
        )
        const expected = run(whole)
        for (const n of timeMs.keys()) {
          const firstMs = timeMs[Math.max(0, n - readings)]! - ms
          const from = Math.max(0, timeMs.findIndex((each) => each >= firstMs) - readings)
          const lastMs = timeMs[Math.min(timeMs.length - 1, n + readings)]! + ms
          const to = timeMs.findLastIndex((each) => each <= lastMs) + 1 + readings
          const part = {
            ...whole,
            timeMs: timeMs.slice(from, to),
            signal: signal.slice(from, to),
            value: whole.value.slice(from, to),
          }
          expect(run(part)[n - from]).toEqual(expected[n])
        }
      }),
      { numRuns: 100 },
    )
  })
})
