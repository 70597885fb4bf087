import { describe, expect, test } from 'vitest'
import { resolveTimes } from '../../../hub/intake/resolve-time.ts'

const arrived = Date.UTC(2026, 5, 12, 9, 30, 0)
const arrivedSeconds = arrived / 1000

describe('resolveTimes', () => {
  test('no time at all is the time of arrival', () => {
    expect(resolveTimes([0, 0], arrived)).toEqual({ timesMs: [arrived, arrived], origin: 'arrival' })
  })
  test('seconds before sending are kept: a backlog has its true times (RFC 8428 §4.5.3)', () => {
    expect(resolveTimes([-12.5, -3600, 0], arrived)).toEqual({
      timesMs: [arrived - 12_500, arrived - 3_600_000, arrived],
      origin: 'board seconds',
    })
  })
  test('Unix time is taken when it is possible', () => {
    const answer = resolveTimes([arrivedSeconds - 1.25], arrived)
    expect(answer).toEqual({ timesMs: [arrived - 1250], origin: 'board clock' })
  })
  test('a clock in 1970 reads as relative seconds far ahead: the message is shifted to arrival', () => {
    expect(resolveTimes([5000, 5010], arrived)).toEqual({
      timesMs: [arrived - 10_000, arrived],
      origin: 'shifted to arrival',
    })
  })
  test('a clock in next year, or in 2000, is shifted to arrival with the spacing of its signals kept', () => {
    for (const start of [arrivedSeconds + 365 * 86_400, 946_684_800])
      expect(resolveTimes([start, start + 2], arrived)).toEqual({
        timesMs: [arrived - 2000, arrived],
        origin: 'shifted to arrival',
      })
  })
  test('times that are spread over years keep not even their order', () => {
    const answer = resolveTimes([946_684_800, arrivedSeconds + 365 * 86_400], arrived)
    expect(answer).toEqual({ timesMs: [arrived, arrived], origin: 'shifted to arrival' })
  })
  test('limits: 5 min ahead and 60 days back are possible, a second more is not', () => {
    const origin = (seconds: number) => resolveTimes([arrivedSeconds + seconds], arrived).origin
    expect(origin(300)).toBe('board clock')
    expect(origin(301)).toBe('shifted to arrival')
    expect(origin(-60 * 86_400)).toBe('board clock')
    expect(origin(-60 * 86_400 - 1)).toBe('shifted to arrival')
    expect(resolveTimes([5], arrived).origin).toBe('board seconds')
    expect(resolveTimes([5.1], arrived).origin).toBe('shifted to arrival')
  })
  test('an empty message has no times', () => {
    expect(resolveTimes([], arrived)).toEqual({ timesMs: [], origin: 'arrival' })
  })
})
