import { describe, expect, test } from 'vitest'
import {
  correctDrift,
  type DriftAnswer,
  type DriftQuestion,
  fitBoardClock,
  isRefusal,
  rateAccuracy,
} from '../../calibration/index.ts'
import { expectRefusal } from './expect-fitted.ts'
import { referenceJson } from './reference-files.ts'

const record = referenceJson('qc-usgs-tm1d3.json')

function corrected(question: DriftQuestion): DriftAnswer {
  const answer = correctDrift(question)
  if (isRefusal(answer)) throw new Error(answer.message)
  return answer
}

describe('drift found afterwards', () => {
  const day: DriftQuestion = {
    calibratedAt: 0,
    checkedAt: 300,
    readAt: 120,
    reading: 5.48,
    checks: [
      { reference: 4.0, reading: 4.12 },
      { reference: 7.06, reading: 7.1 },
    ],
  }

  test('two buffers: the error is interpolated in pH and in time, 5.48 becomes 5.45', () => {
    const answer = corrected(day)
    expect(answer.errorAtCheck).toBeCloseTo(0.0835, 4)
    expect(answer.error).toBeCloseTo(0.0334, 4)
    expect(answer.corrected).toBeCloseTo(5.4466, 4)
    expect(answer.isExtrapolated).toBe(false)
  })

  test('one buffer: 0.048, 5.43', () => {
    const answer = corrected({ ...day, checks: day.checks.slice(0, 1) })
    expect(answer.error).toBeCloseTo(0.048, 9)
    expect(answer.corrected).toBeCloseTo(5.432, 9)
  })

  test('exactly nothing at the calibration and exactly the whole at the check; un-correcting restores the number', () => {
    expect(corrected({ ...day, readAt: 0 }).error).toBe(0)
    expect(corrected({ ...day, readAt: 300 }).error).toBe(corrected(day).errorAtCheck)
    const answer = corrected(day)
    expect(answer.corrected + answer.error).toBeCloseTo(5.48, 12)
  })

  test('straight-line rule over a record, drift and fouling', () => {
    // USGS TM 1-D3; d4 is a published example, the others computed
    for (const each of record.two_point_drift.cases) {
      if (each.id === 'd1' || each.id === 'd2') {
        for (const [k, hours] of each.t_h.entries()) {
          const answer = corrected({
            calibratedAt: each.t0,
            checkedAt: each.t1,
            readAt: hours,
            reading: each.raw[k],
            checks: [{ reference: each.standard, reading: each.reading }],
          })
          expect(answer.corrected).toBeCloseTo(each.corrected[k], 9)
        }
      }
      if (each.id.startsWith('d3')) {
        for (const [k, hours] of each.t_h.entries()) {
          const answer = corrected({
            calibratedAt: each.t0,
            checkedAt: each.t1,
            readAt: hours,
            reading: each.raw[k],
            checks: [{ reference: 5, reading: 5 - each.drift_correction }],
            fouling: { beforeCleaning: 5, afterCleaning: 5 + each.fouling_correction },
          })
          expect(answer.corrected).toBeCloseTo(each.corrected[k], 9)
        }
      }
      if (each.id.startsWith('d4')) {
        for (const { t, correction } of each.at) {
          const answer = corrected({
            calibratedAt: Date.parse(each.t_start),
            checkedAt: Date.parse(each.t_end),
            readAt: Date.parse(t),
            reading: 100,
            checks: [{ reference: 100, reading: 100 }],
            fouling: { beforeCleaning: each.before_cleaning, afterCleaning: each.after_cleaning },
          })
          expect(-answer.error).toBeCloseTo(correction, 9)
        }
      }
    }
  })

  test('beyond the two buffers the error is extended, and said so', () => {
    expect(corrected({ ...day, reading: 4.11 }).isExtrapolated).toBe(true)
    expect(corrected({ ...day, reading: 4.12 }).isExtrapolated).toBe(false)
    expect(corrected({ ...day, reading: 7.1 }).isExtrapolated).toBe(false)
    expect(corrected({ ...day, reading: 7.11 }).isExtrapolated).toBe(true)
  })

  test('times out of order, no check and equal checks are refused', () => {
    expectRefusal(correctDrift({ ...day, checkedAt: 0 }), 'E_INTERVAL')
    expectRefusal(correctDrift({ ...day, readAt: -1 }), 'E_INTERVAL')
    expectRefusal(correctDrift({ ...day, readAt: 301 }), 'E_INTERVAL')
    expectRefusal(correctDrift({ ...day, checks: [] }), 'E_POINTS_FEW')
    expectRefusal(correctDrift({ ...day, checks: [day.checks[0]!, day.checks[0]!] }), 'E_SAME_REFERENCE')
    expectRefusal(correctDrift({ ...day, reading: Number.NaN }), 'E_NOT_FINITE')
  })
})

test('a record is rated by the sum of its absolute corrections', () => {
  // USGS TM 1-D3 rating table, limits from memory
  for (const { parameter, fouling, drift, rating } of record.rating_cases) {
    expect(rateAccuracy(parameter === 'pH' ? 'soil_ph' : 'soil_temperature', [fouling, drift])).toBe(rating)
  }
  expectRefusal(rateAccuracy('illuminance', [1]), 'E_SETTING')
  expectRefusal(rateAccuracy('soil_ph', [Number.NaN]), 'E_NOT_FINITE')
})

describe('a board without a clock', () => {
  const ten = Date.UTC(2026, 4, 6, 10)
  const syncs = [
    { uptimeMs: 12_000, atMs: ten },
    { uptimeMs: 7_214_400, atMs: ten + 7_200_000 },
  ]

  test('fast by 333 ppm: uptime 3 613 200 ms is 11:00:00.000', () => {
    const clock = fitBoardClock(syncs)
    if (isRefusal(clock)) throw new Error(clock.message)
    expect(clock.fastPpm).toBeCloseTo(333.33, 2)
    expect(clock.timeAt(3_613_200)).toBeCloseTo(ten + 3_600_000, 3)
    expect(clock.isRateKnown).toBe(true)
  })

  test('with one sync point the rate is assumed, not known', () => {
    const clock = fitBoardClock(syncs.slice(0, 1))
    if (isRefusal(clock)) throw new Error(clock.message)
    expect(clock.isRateKnown).toBe(false)
    expect(clock.timeAt(13_000)).toBe(ten + 1000)
  })

  test('a restart between the points, no point, and a clock that is none are refused', () => {
    expectRefusal(fitBoardClock([]), 'E_POINTS_FEW')
    expectRefusal(fitBoardClock([syncs[0]!, { uptimeMs: 500, atMs: ten + 60_000 }]), 'E_INTERVAL')
    expectRefusal(fitBoardClock([syncs[0]!, { uptimeMs: 24_000, atMs: ten + 600_000 }]), 'E_INTERVAL')
    expectRefusal(fitBoardClock([{ uptimeMs: Number.NaN, atMs: ten }]), 'E_NOT_FINITE')
  })
})
