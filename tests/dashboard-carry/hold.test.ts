import { describe, expect, test } from 'vitest'
import { STEADY_RULES } from '../../calibration/index.ts'
import { heldWindow, type LiveReading, samplesOf } from '../../dashboard/carry/held-window.ts'
import { holdState } from '../../dashboard/carry/hold-state.ts'
import { withReadings } from '../../dashboard/carry/live-readings.ts'
import { probeNow, slowest } from '../../dashboard/carry/meter-now.ts'
import { fieldRule, unsteadyAfterSeconds } from '../../dashboard/carry/steady-rule.ts'
import { digitsText } from '../../dashboard/format.ts'
import type { Probe } from '../../hub/contract/survey.ts'

const start = Date.parse('2026-06-12T09:00:00Z')
const at = (seconds: number) => new Date(start + seconds * 1000).toISOString()

/** Story A04 of the domain map: pH each 5 s, t = 0 … 40 s. Common practice, no source. */
const settling = [6.42, 6.18, 6.05, 5.97, 5.93, 5.92, 5.91, 5.91, 5.91]

function readings(values: readonly (number | null)[], stepSeconds = 5): LiveReading[] {
  return values.map((value, index) => ({
    id: index + 1,
    timeMs: start + index * stepSeconds * 1000,
    signal: 100 + index,
    value,
    uncertainty: value === null ? null : 0.04,
    flag: 1,
  }))
}

const electrode: Probe = { id: 'PH-1', quantity: 'soil_ph', method: {}, board: 'sedge-1', channel: 'ph' }
const units = { signal: 'mV', value: 'pH' }
const buffer = STEADY_RULES['soil_ph_buffer']!

describe('the window of readings that is kept', () => {
  test('A04: by the buffer rule nothing is steady before t = 35 s; then 5.92 is held, of the readings from 20 s to 35 s', () => {
    const upTo = (seconds: number) => heldWindow(readings(settling.slice(0, seconds / 5 + 1)), buffer)!
    expect([15, 20, 25, 30].map((seconds) => upTo(seconds).held.isSteady)).toEqual([
      false,
      false,
      false,
      false,
    ])
    const held = upTo(35)
    // (5.93 + 5.92 + 5.91 + 5.91) / 4 = 5.9175, worked by hand in the story; `to` is exclusive
    expect(held.held).toEqual({ from: at(20), to: at(35.001), isSteady: true })
    expect(held.value).toBeCloseTo(5.9175, 10)
    expect(digitsText('soil_ph', 'pH', held.value!, null)).toBe('5.92')
  })

  test('A04: pulled out at 25 s it is not steady, and can be kept only as such', () => {
    const pulled = [...settling.slice(0, 5), 7.4, 8.9, 9.3]
    expect(heldWindow(readings(pulled), buffer)!.held.isSteady).toBe(false)
  })

  test('a window of exactly the allowed span is steady, one of 0.001 more is not', () => {
    // soil rule of the domain map: 4 readings at 5 s steps within 0.05
    const soil = STEADY_RULES['soil_ph']!
    expect(heldWindow(readings([5.93, 5.9, 5.9, 5.88]), soil)!.held.isSteady).toBe(true)
    expect(heldWindow(readings([5.931, 5.9, 5.9, 5.88]), soil)!.held.isSteady).toBe(false)
  })

  test('times are those of the readings, whatever the clock of the phone says; without a reading there is no window', () => {
    expect(heldWindow([], buffer)).toBeNull()
    expect(heldWindow(readings([5.9]), buffer)!.held).toEqual({ from: at(0), to: at(0.001), isSteady: false })
  })

  test('a failed reading in the window is left out of the mean, as the hub leaves it out', () => {
    const four = readings([5.9, 5.9, 5.9, 5.9])
    four[2] = { ...four[2]!, value: 5.93, flag: 4 }
    expect(heldWindow(four, STEADY_RULES['soil_ph']!)!.value).toBeCloseTo(5.9, 10)
  })

  test('a reading that comes late is put where it belongs, and twice is once', () => {
    const [one, two, three] = readings([5.9, 5.91, 5.92]) as [LiveReading, LiveReading, LiveReading]
    const late = withReadings([one, three], [two, three])
    expect(late.map(({ id }) => id)).toEqual([1, 2, 3])
    expect(withReadings(late, [two])).toBe(late)
  })
})

describe('what the hand waits for', () => {
  test('readings up to the mark belong to the insertion before', () => {
    const all = readings(settling)
    expect(probeNow(electrode, all, start + 40_000, units)).toMatchObject({ window: null, samples: [] })
    expect(probeNow(electrode, all, 0, units).settling.isSteady).toBe(true)
  })

  test('of several probes on one board the slowest closes the ring', () => {
    const thermometer: Probe = {
      ...electrode,
      id: 'TEM-1',
      quantity: 'soil_temperature',
      channel: 'temperature',
    }
    const both = [
      probeNow(electrode, readings(settling), 0, units),
      probeNow(thermometer, readings(Array(9).fill(12.5)), 0, { signal: 'Cel', value: 'Cel' }),
    ]
    expect(both[0]!.settling.isSteady).toBe(true)
    // 60 s within 0.125 °C is asked of soil temperature, 40 s have gone by
    expect(slowest(both).probe.id).toBe('TEM-1')
  })

  test('without a calibration the signal is watched, never signals and values in one list', () => {
    const mixed = readings([null, null, 5.9, 5.91])
    expect(samplesOf(mixed)).toEqual({
      isValue: true,
      samples: [
        { seconds: start / 1000 + 10, value: 5.9 },
        { seconds: start / 1000 + 15, value: 5.91 },
      ],
    })
    expect(samplesOf(readings([null, null])).samples.map(({ value }) => value)).toEqual([100, 101])
    // 0.05 pH at 59 mV a pH is 3 mV
    expect(fieldRule('soil_ph', false, 'mV').span).toBe(3)
    expect(probeNow(electrode, readings([null, null, null, null]), 0, units)).toMatchObject({
      unit: 'mV',
      isValue: false,
      settling: { isSteady: true },
    })
  })

  test('one that does not settle may be kept after a time: 300 s for pH (domain map 2.3), sooner for what is fast', () => {
    expect(unsteadyAfterSeconds([fieldRule('soil_ph', true, 'mV')])).toBe(300)
    // common practice, no source
    expect(unsteadyAfterSeconds([fieldRule('illuminance', true, 'count')])).toBe(60)
    expect(
      unsteadyAfterSeconds([fieldRule('illuminance', true, 'count'), fieldRule('soil_ph', true, 'mV')]),
    ).toBe(300)
  })

  test('wind is averaged over 30 s: gusts do not make it unsteady', () => {
    const gusty = readings([0.4, 3.2, 1.1, 2.6, 0.2, 4.1, 1.9], 5)
    expect(heldWindow(gusty, fieldRule('wind_speed', true, 'Hz'))!.held.isSteady).toBe(true)
    expect(heldWindow(gusty.slice(0, 6), fieldRule('wind_speed', true, 'Hz'))!.held.isSteady).toBe(false)
  })
})

describe('the button', () => {
  // 20 s to put it in again and 60 s of silence: common practice, no source
  const at = {
    isSteady: true,
    hasWindow: true,
    hasMoved: false,
    isAutomatic: false,
    heldSeconds: 10,
    patienceSeconds: 300,
    quietMs: 1000,
  }

  test('keeps what is steady, and what never settles only after the time-out, marked', () => {
    expect(holdState(at).may).toBe('keep')
    expect(holdState({ ...at, isSteady: false, heldSeconds: 300 }).may).toBe('wait')
    expect(holdState({ ...at, isSteady: false, heldSeconds: 301 }).may).toBe('marked')
    expect(holdState({ ...at, hasWindow: false }).may).toBe('wait')
  })

  test('keeps nothing by itself that has not settled', () => {
    const never = { ...at, isSteady: false, isAutomatic: true, heldSeconds: 1000, hasMoved: true }
    expect(holdState(never)).toEqual({ may: 'marked', keepsItself: false, waitsForMove: false })
  })

  test('by itself it keeps once the meter was moved, or there was time to: not three looks at one hole', () => {
    const automatic = { ...at, isAutomatic: true }
    expect(holdState(automatic)).toEqual({ may: 'keep', keepsItself: false, waitsForMove: true })
    expect(holdState({ ...automatic, hasMoved: true }).keepsItself).toBe(true)
    expect(holdState({ ...automatic, heldSeconds: 20 }).keepsItself).toBe(false)
    expect(holdState({ ...automatic, heldSeconds: 21 }).keepsItself).toBe(true)
    expect(holdState({ ...at, hasMoved: true }).keepsItself).toBe(false)
  })

  test('what was steady a minute ago and not heard since is not kept', () => {
    expect(holdState({ ...at, quietMs: 60_000 }).may).toBe('keep')
    expect(holdState({ ...at, quietMs: 60_001, isAutomatic: true, hasMoved: true })).toEqual({
      may: 'wait',
      keepsItself: false,
      waitsForMove: false,
    })
  })
})
