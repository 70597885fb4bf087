import { describe, expect, it } from 'vitest'
import { ageText, clockText, isZone, momentText, spanText } from '../../dashboard/format-time.ts'

const MINUTE = 60_000
const HOUR = 60 * MINUTE

describe('ageText', () => {
  const now = Date.UTC(2026, 5, 12, 10, 0, 0)
  it.each([
    [0, 'just now'],
    [1999, 'just now'],
    [2000, '2 s ago'],
    [59_999, '59 s ago'],
    [MINUTE, '1 min ago'],
    [HOUR - 1, '59 min ago'],
    [HOUR, '1 h ago'],
    [2 * HOUR + 10 * MINUTE, '2 h 10 min ago'],
    [24 * HOUR, '1 day ago'],
    [73 * HOUR, '3 days ago'],
  ])('%i ms is “%s”', (ms, text) => {
    expect(ageText(now - ms, now)).toBe(text)
  })
  it('of what was never heard is “never”', () => {
    expect(ageText(null, now)).toBe('never')
  })
  it('forgives a moment slightly ahead, and says when a clock is plainly wrong', () => {
    expect(ageText(now + 4000, now)).toBe('just now')
    expect(ageText(now + 2 * HOUR, now)).toBe('2 h ahead')
  })
})

describe('clock times', () => {
  const ms = Date.UTC(2026, 5, 12, 9, 30, 5)
  it('are those of the site', () => {
    expect(clockText(ms, 'Europe/Vienna')).toBe('11:30:05')
    expect(clockText(ms, 'UTC')).toBe('09:30:05')
    expect(momentText(ms, 'UTC')).toBe('12 Jun 2026, 09:30:05')
  })
  it('count midnight as 00, not 24', () => {
    expect(clockText(Date.UTC(2026, 5, 12), 'UTC')).toBe('00:00:00')
  })
  it('fall back to the browser for a zone nobody knows', () => {
    expect(isZone('Nowhere/Land')).toBe(false)
    expect(() => clockText(ms, 'Nowhere/Land')).not.toThrow()
  })
  it('rough spans do not go below zero', () => {
    expect(spanText(-5)).toBe('0 s')
  })
})
