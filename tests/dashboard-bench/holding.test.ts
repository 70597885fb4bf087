import { describe, expect, it } from 'vitest'
import { PROCEDURES, type SteadyRule } from '../../calibration/index.ts'
import { withHeard } from '../../dashboard/bench/hold/held-signals.ts'
import {
  captureHeld,
  heldUnit,
  moveAt,
  samplesOf,
  settledAfter,
  signalFactor,
  sinceMoved,
} from '../../dashboard/bench/hold/hold.ts'
import { describeSettling } from '../../dashboard/bench/hold/steadiness-words.ts'
import { traceOf } from '../../dashboard/bench/hold/trace-geometry.ts'

const rule: SteadyRule = { windowSeconds: 15, minimumSamples: 4, span: 1.2 }
const every = (seconds: number, values: readonly number[]) =>
  values.map((value, index) => ({ seconds: index * seconds, value }))
/** the pH of acceptance story A04 at 5 s steps */
const a04 = every(5, [6.42, 6.18, 6.05, 5.97, 5.93, 5.92, 5.91, 5.91, 5.91])
const a04Rule: SteadyRule = { windowSeconds: 15, minimumSamples: 4, span: 0.02 }

describe('words for what still moves', () => {
  it('wait for a first signal', () => {
    expect(describeSettling([], rule, 'mV')).toEqual({
      isSteady: false,
      closed: 0,
      words: 'waiting for a signal',
    })
  })
  it('count the signals, then the seconds, until the window is full', () => {
    expect(describeSettling(every(5, [1, 1]), rule, 'mV').words).toBe('watching: 2 of 4 signals')
    expect(describeSettling(every(1, [1, 1, 1, 1, 1]), rule, 'mV').words).toBe('watching: 4 of 15 s')
  })
  it('say which way, how much, and how much is allowed', () => {
    expect(describeSettling(every(5, [9, 6, 4, 3]), rule, 'mV').words).toBe(
      'still falling: 6.0 mV in 15 s, 1.2 is allowed',
    )
    expect(describeSettling(every(5, [0, 2, 4, 6]), rule, 'mV').words).toContain('still rising: 6.0 mV')
    expect(describeSettling(every(5, [0, 4, 0, 4, 0, 4, 0]), rule, 'mV').words).toContain('still wandering')
  })
  it('name the rate where the span is small enough and the rate is not', () => {
    const slow: SteadyRule = { windowSeconds: 15, minimumSamples: 4, span: 1, ratePerMinute: 0.1 }
    expect(describeSettling(every(5, [10, 10.05, 10.1, 10.15]), slow, 'Cel').words).toBe(
      'still rising: 0.60 °C a minute, 0.10 is allowed',
    )
  })
  it('close the ring only when it is steady, and never open it by more signals alone', () => {
    const closed = a04.map((_, index) => describeSettling(a04.slice(0, index + 1), a04Rule, 'pH'))
    expect(closed.map(({ isSteady }) => isSteady)).toEqual([
      false,
      false,
      false,
      false,
      false,
      false,
      false,
      true,
      true,
    ])
    for (const { isSteady, closed: part } of closed) expect(part === 1).toBe(isSteady)
    expect(closed[7]!.words).toBe('steady: within 0.02 pH for 15 s')
  })
})

describe('a point that is kept', () => {
  it('is the mean of the steady window, held at 35 s, as in story A04', () => {
    const held = captureHeld(a04.slice(0, 8), a04Rule)!
    expect(held.signal).toBeCloseTo(5.9175, 6)
    expect(held).toMatchObject({ n: 4, isForced: false, secondsToSteady: 35 })
    expect(held.scatter).toBeCloseTo(0.009574, 5)
  })
  it('is marked as forced while it moves, and then takes only what is young', () => {
    const held = captureHeld(every(20, [100, 40, 20, 10]), rule)!
    expect(held).toEqual({ signal: 10, scatter: null, n: 1, isForced: true, secondsToSteady: null })
  })
  it('cannot be made of nothing', () => {
    expect(captureHeld([], rule)).toBeNull()
  })
  it('reckons the time to steady from the move, without the pauses of a slow board', () => {
    const values = [0, 0, 0, 170, 171, 171, 171, 171]
    expect(settledAfter(sinceMoved(every(20, values), rule), rule)).toBe(35)
    expect(settledAfter(every(20, [5, 9, 5, 9]), rule)).toBeNull()
  })
})

describe('a move of the probe', () => {
  it('is the largest jump, not settling noise', () => {
    expect(moveAt(every(5, [0, 1, 2, 160, 165, 166]), rule)).toBe(3)
    expect(moveAt(every(5, [0, 1, 2, 3]), rule)).toBeNull()
    expect(sinceMoved(every(5, [0, 1, 160, 161]), rule)).toHaveLength(3)
  })
})

describe('signals of a channel', () => {
  it('in V are brought to the mV a pH procedure is written in', () => {
    const ph = PROCEDURES.find(({ id }) => id === 'ph-buffers')!
    expect(signalFactor(ph, 'V')).toBe(1000)
    expect(heldUnit(ph, 'V')).toBe('mV')
    expect(samplesOf([{ timeMs: 1000, signal: 0.1763 }], 0, 1000)).toEqual([{ seconds: 1, value: 176.3 }])
    expect(signalFactor(PROCEDURES.find(({ id }) => id === 'dry-wet')!, 'V')).toBe(1)
  })
  it('from before the hold are left out', () => {
    expect(
      samplesOf(
        [
          { timeMs: 1000, signal: 1 },
          { timeMs: 2000, signal: 2 },
        ],
        1500,
        1,
      ),
    ).toHaveLength(1)
  })
  it('that come late are put in order, and a repeat is taken once', () => {
    const at = (id: number) => ({ id, timeMs: id * 1000, signal: id })
    expect(withHeard([at(1), at(3)], [at(2), at(3)]).map(({ id }) => id)).toEqual([1, 2, 3])
  })
})

describe('the trace', () => {
  const box = { width: 320, height: 76 }
  it('is empty without signals', () => {
    expect(traceOf([], rule, [], box)).toMatchObject({ path: '', end: null, lane: null })
  })
  it('ends at the newest signal and lets the jump between beakers leave the box', () => {
    const samples = every(5, [0, 160, 165, 166, 166, 166])
    const trace = traceOf(samples, rule, samples.slice(-4), box)
    expect(trace.end!.x).toBeCloseTo(316, 6)
    expect(trace.end!.y).toBeGreaterThan(0)
    expect(trace.end!.y).toBeLessThan(76)
    expect(Math.max(...[...trace.path.matchAll(/ (-?[\d.]+)/g)].map(([, y]) => Number(y)))).toBeGreaterThan(
      76,
    )
  })
  it('does not magnify a still signal until it fills the box', () => {
    const samples = every(5, [5, 5, 5, 5])
    expect(traceOf(samples, rule, samples, box).lane!.height).toBeLessThan(40)
  })
})
