import { describe, expect, test } from 'vitest'
import { firstSteady, isSteady, judgeSteadiness, STEADY_RULES } from '../../calibration/index.ts'

const BUFFER = STEADY_RULES['soil_ph_buffer']!
const SOIL = STEADY_RULES['soil_ph']!
const every = (step: number, values: number[]) => values.map((value, k) => ({ seconds: k * step, value }))

describe('waiting for a held probe to settle', () => {
  const settling = every(5, [6.42, 6.18, 6.05, 5.97, 5.93, 5.92, 5.91, 5.91, 5.91])

  test('pH each 5 s in buffer: not over 15–30 s, but over 20–35 s, at 5.9175', () => {
    expect(isSteady(settling.slice(0, 7), BUFFER)).toBe(false)
    expect(isSteady(settling.slice(0, 8), BUFFER)).toBe(true)
    const held = firstSteady(settling, BUFFER)!
    expect(held.seconds).toBe(35)
    expect(held.value).toBeCloseTo(5.9175, 9)
  })

  test('soil is judged more gently than buffer', () => {
    expect(firstSteady(settling, SOIL)!.seconds).toBeLessThanOrEqual(35)
    expect(isSteady(every(5, [5.95, 5.92, 5.91, 5.91]), SOIL)).toBe(true)
    expect(isSteady(every(5, [5.95, 5.92, 5.91, 5.91]), BUFFER)).toBe(false)
  })

  test('pulled out at 25 s: never steady', () => {
    expect(firstSteady(settling.slice(0, 5), BUFFER)).toBeNull()
    expect(judgeSteadiness(settling.slice(0, 5), BUFFER).steady).toBe(false)
  })

  test('the span: below, at, at in spite of binary fractions, above', () => {
    const spanning = (high: number) => isSteady(every(5, [high, 5.91, 5.91, 5.91]), BUFFER)
    expect([5.92, 5.93, 5.9304, 5.931].map(spanning)).toEqual([true, true, true, false])
  })

  test('empty, one, two and too short are not steady', () => {
    for (const values of [[], [5], [5, 5], [5, 5, 5]]) expect(isSteady(every(5, values), BUFFER)).toBe(false)
    expect(isSteady(every(1, [5, 5, 5, 5]), BUFFER)).toBe(false)
    expect(judgeSteadiness([], BUFFER)).toMatchObject({ value: null, span: null, sampleCount: 0 })
  })

  test('a gap in the samples is bridged only by samples on both sides', () => {
    const gap = [
      { seconds: 0, value: 5 },
      { seconds: 60, value: 5 },
    ]
    expect(isSteady(gap, BUFFER)).toBe(false)
  })

  test('a slow creep inside the span is caught by the rate', () => {
    const rule = STEADY_RULES['soil_temperature']!
    const creep = (perMinute: number) =>
      every(
        10,
        Array.from({ length: 7 }, (_, k) => 12 + (perMinute * k) / 6),
      )
    expect(isSteady(creep(0.1), rule)).toBe(true)
    expect(isSteady(creep(0.12), rule)).toBe(false)
  })

  test('light is judged as a share of itself', () => {
    const rule = STEADY_RULES['illuminance']!
    expect(isSteady(every(1, [10_000, 10_500, 10_200]), rule)).toBe(true)
    expect(isSteady(every(1, [10_000, 12_500, 10_200]), rule)).toBe(false)
  })
})
