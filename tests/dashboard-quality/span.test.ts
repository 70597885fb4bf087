import { describe, expect, it } from 'vitest'
import {
  afterTap,
  decisionAt,
  drawnSpan,
  isSpan,
  type Marked,
  spanBetween,
} from '../../dashboard/quality/by-hand/span.ts'
import { countInSpan } from '../../dashboard/quality/by-hand/span-count.ts'
import { momentOfSeconds, wallSeconds } from '../../dashboard/quality/by-hand/wall-seconds.ts'

const NOW = 1_000_000

describe('spanBetween', () => {
  it('is the same whichever end comes first, in whole seconds that hold both', () => {
    const span = { fromMs: 10_000, toMs: 13_000 }
    expect(spanBetween(10_400, 12_700, NOW)).toEqual(span)
    expect(spanBetween(12_700, 10_400, NOW)).toEqual(span)
  })
  it('holds a reading that lies on its last second: the end is not included', () => {
    expect(spanBetween(10_000, 12_000, NOW).toMs).toBeGreaterThan(12_000)
  })
  it('of one moment is a second', () => {
    expect(spanBetween(10_000, 10_000, NOW)).toEqual({ fromMs: 10_000, toMs: 11_000 })
  })
  it('does not reach into what has not been measured yet', () => {
    expect(spanBetween(NOW - 5000, NOW + 60_000, NOW)).toEqual({ fromMs: NOW - 5000, toMs: NOW + 1000 })
    expect(spanBetween(NOW + 60_000, NOW + 90_000, NOW)).toEqual({ fromMs: NOW, toMs: NOW + 1000 })
  })
})

describe('two taps', () => {
  it('mark a span, and a third begins anew', () => {
    let marked: Marked = null
    marked = afterTap(marked, 12_700, NOW)
    expect(marked).toEqual({ edgeMs: 12_700 })
    expect(isSpan(marked)).toBe(false)
    expect(drawnSpan(marked)).toEqual({ fromMs: 12_700, toMs: 12_700 })
    marked = afterTap(marked, 10_400, NOW)
    expect(marked).toEqual({ fromMs: 10_000, toMs: 13_000 })
    expect(isSpan(marked)).toBe(true)
    expect(drawnSpan(marked)).toEqual(marked)
    expect(afterTap(marked, 50_000, NOW)).toEqual({ edgeMs: 50_000 })
  })
})

describe('times typed', () => {
  it('are those of the site, to the second, and read back as they were', () => {
    const ms = Date.UTC(2026, 5, 12, 9, 30, 5)
    for (const zone of ['UTC', 'Europe/Vienna', 'Asia/Kathmandu', undefined])
      expect(momentOfSeconds(wallSeconds(ms, zone), zone)).toBe(ms)
    expect(wallSeconds(ms, 'Europe/Vienna')).toBe('2026-06-12T11:30:05')
  })
  it('may leave the seconds away, as browsers do when they are 0', () => {
    expect(momentOfSeconds('2026-06-12T09:30', 'UTC')).toBe(Date.UTC(2026, 5, 12, 9, 30))
  })
  it('that are no times are null', () => {
    for (const text of ['', 'soon', '2026-06-12', '2026-13-40T09:30:00', '2026-06-12T09:30:61'])
      expect(momentOfSeconds(text, 'UTC')).toBeNull()
  })
})

describe('decisionAt', () => {
  const decision = (id: string, from: string, to: string, more = {}) => ({
    id,
    probe: 'ph-1',
    from: `2026-06-12T${from}:00Z`,
    to: `2026-06-12T${to}:00Z`,
    ...more,
  })
  const at = (time: string) => Date.parse(`2026-06-12T${time}:00Z`)
  const decisions = [
    decision('d1', '09:00', '10:00'),
    decision('d2', '09:30', '09:40'),
    decision('d3', '09:30', '09:40', { takenBack: { at: '2026-06-12T11:00:00Z' } }),
  ]
  it('is the newest that holds; its end does not belong to it', () => {
    expect(decisionAt(decisions, 'ph-1', at('09:00'))?.id).toBe('d1')
    expect(decisionAt(decisions, 'ph-1', at('09:35'))?.id).toBe('d2')
    expect(decisionAt(decisions, 'ph-1', at('09:40'))?.id).toBe('d1')
    expect(decisionAt(decisions, 'ph-1', at('10:00'))).toBeUndefined()
    expect(decisionAt(decisions, 'ph-2', at('09:35'))).toBeUndefined()
  })
})

describe('countInSpan', () => {
  const readings = Array.from({ length: 1000 }, (_, n) => ({
    timeMs: n * 10,
    flag: n % 100 === 0 ? 4 : n % 10 === 0 ? 3 : 1,
  }))
  /** As the hub answers: singly up to `steps` readings, else in steps that know only their worst flag. */
  const hub = (steps: number) => async (fromMs: number, toMs: number) => {
    const here = readings.filter(({ timeMs }) => timeMs >= fromMs && timeMs < toMs)
    if (here.length <= steps)
      return [
        {
          probe: 'ph-1',
          flag: here.map(({ flag }) => flag),
          count: here.map(() => 1),
          id: here.map((_, n) => n),
        },
        { probe: 'wet-1', flag: [4], count: [1], id: [1] },
      ]
    const worst = Math.max(...here.map(({ flag }) => flag))
    return [{ probe: 'ph-1', flag: [worst], count: [here.length], id: [null] }]
  }
  it.each([10, 137, 5000])(
    'is exact although the hub gives no more than %i readings singly',
    async (steps) => {
      const count = await countInSpan(hub(steps), 'ph-1', 0, 10_000)
      expect(count).toEqual({ all: 1000, suspect: 90, fail: 10 })
    },
  )
  it('of nothing is nothing', async () => {
    expect(await countInSpan(async () => [], 'ph-1', 0, 10)).toEqual({ all: 0, suspect: 0, fail: 0 })
  })
})
