import { expect, test } from 'vitest'
import { carriedMoment } from '../../dashboard/field/placements/carried-moment.ts'
import { companionsOf } from '../../dashboard/field/placements/companions.ts'
import { stretchesOf } from '../../dashboard/field/placements/stretches.ts'
import { boxesOf, placeOnStrip, ticksOf } from '../../dashboard/field/placements/strip-geometry.ts'
import { traceDrawn } from '../../dashboard/field/placements/trace-geometry.ts'
import { viewSpan } from '../../dashboard/field/placements/view-span.ts'

// all expected values here follow by hand from the times written beside them

const at = (clock: string) => Date.parse(`2026-06-12T${clock}Z`)
const placement = (probe: string, quadrat: string | null, from: string, to?: string) => ({
  probe,
  quadrat,
  from: `2026-06-12T${from}Z`,
  ...(to === undefined ? {} : { to: `2026-06-12T${to}Z` }),
})

test('a day of one probe has no holes: not placed, at Q1, in transit, at Q2, not placed', () => {
  const stretches = stretchesOf(
    [
      placement('ph-1', 'Q2', '10:50:00', '11:20:00'),
      placement('ph-1', null, '10:42:00', '10:50:00'),
      placement('ph-1', 'Q1', '10:00:00', '10:42:00'),
    ],
    at('09:00:00'),
  )
  expect(stretches.map(({ kind, quadrat }) => quadrat ?? kind)).toEqual([
    'none',
    'Q1',
    'transit',
    'Q2',
    'none',
  ])
  for (const [index, stretch] of stretches.slice(1).entries())
    expect(stretch.fromMs).toBe(stretches[index]?.toMs)
  expect(stretches.at(-1)?.toMs).toBeNull()
})

test('a placement without an end lasts to the next one; those that ended before the view are left out', () => {
  const stretches = stretchesOf(
    [
      placement('ph-1', 'Q1', '08:00:00'),
      placement('ph-1', 'Q2', '08:30:00'),
      placement('ph-1', 'Q3', '10:00:00'),
    ],
    at('09:00:00'),
  )
  expect(stretches.map(({ quadrat, toMs }) => [quadrat, toMs])).toEqual([
    ['Q2', at('10:00:00')],
    ['Q3', null],
  ])
})

test('nothing placed is one stretch that goes on', () => {
  expect(stretchesOf([], 5)).toEqual([{ kind: 'none', quadrat: null, fromMs: 5, toMs: null, begins: null }])
})

test('boxes are to scale, cut at both ends of the view and together as wide as the strip', () => {
  const view = { fromMs: at('10:00:00'), toMs: at('12:00:00') }
  const stretches = stretchesOf(
    [placement('ph-1', 'Q1', '09:00:00', '10:30:00'), placement('ph-1', 'Q2', '10:30:00')],
    at('08:00:00'),
  )
  expect(boxesOf(stretches, view, 400).map(({ stretch, x, width }) => [stretch.quadrat, x, width])).toEqual([
    ['Q1', 0, 100],
    ['Q2', 100, 300],
  ])
  expect(placeOnStrip(at('11:00:00'), view, 400)).toBe(200)
})

test('marks under a strip are full quarters of the hour by the zone’s own clock', () => {
  // Kathmandu is 5 h 45 min ahead of UTC (tz database): its full hours are at a quarter past in UTC
  const ticks = ticksOf({ fromMs: at('10:00:00'), toMs: at('14:00:00') }, 240, 60, 'Asia/Kathmandu')
  expect(ticks).toEqual(['10:15:00', '11:15:00', '12:15:00', '13:15:00'].map(at))
})

test('“today” begins at the site’s midnight, or with the first placement when that was later', () => {
  const zone = 'Europe/Berlin'
  const now = at('12:00:00')
  const early = { placements: [placement('ph-1', 'Q1', '00:00:00')] }
  expect(
    viewSpan(
      'today',
      { placements: [{ ...early.placements[0]!, from: '2026-06-01T00:00:00Z' }] },
      [],
      now,
      zone,
    ),
  ).toEqual({
    // Berlin is 2 h ahead in June (tz database)
    fromMs: Date.parse('2026-06-11T22:00:00Z'),
    toMs: now,
  })
  expect(viewSpan('today', { placements: [placement('ph-1', 'Q1', '10:00:00')] }, [], now, zone).fromMs).toBe(
    at('10:00:00'),
  )
  expect(viewSpan('last hour', early, [], now, zone).fromMs).toBe(at('11:00:00'))
  expect(viewSpan('whole survey', { placements: [] }, [], now, zone).fromMs).toBe(at('11:50:00'))
})

test('two probes of one quantity at one quadrat are found for the time they share, by like and unlike methods', () => {
  const probe = (id: string, quantity: string, way: string) => ({
    id,
    quantity,
    method: { way },
    board: 'b',
    channel: id,
  })
  const survey = {
    probes: [
      probe('a', 'soil_ph', 'direct'),
      probe('b', 'soil_ph', 'direct'),
      probe('c', 'soil_ph', 'slurry'),
      probe('d', 'illuminance', 'dome'),
    ],
    placements: [
      placement('a', 'Q1', '10:00:00', '11:00:00'),
      placement('b', 'Q1', '10:30:00'),
      placement('c', 'Q1', '10:45:00', '10:50:00'),
      placement('d', 'Q1', '10:00:00'),
      placement('a', 'Q2', '11:00:00'),
    ],
  }
  const found = companionsOf(survey)
  expect(
    found.map(({ probes, fromMs, toMs, isSameMethod }) => [probes.join(), fromMs, toMs, isSameMethod]),
  ).toEqual([
    ['a,c', at('10:45:00'), at('10:50:00'), false],
    ['b,c', at('10:45:00'), at('10:50:00'), false],
    ['a,b', at('10:30:00'), at('11:00:00'), true],
  ])
  // one leaves as the other comes: they never stood there together
  expect(
    companionsOf({
      ...survey,
      placements: [placement('a', 'Q1', '10:00:00', '10:30:00'), placement('b', 'Q1', '10:30:00')],
    }),
  ).toEqual([])
})

test('the moment it was carried is the middle of a step that stands out; noise alone names none', () => {
  const points = [5.2, 5.21, 5.2, 5.21, 6.4, 6.41, 6.4].map((value, index) => ({
    timeMs: index * 1000,
    value,
  }))
  expect(carriedMoment(points)).toBe(3500)
  expect(carriedMoment(points.slice(0, 3))).toBeNull()
  expect(carriedMoment([1, 2, 1, 2, 1].map((value, index) => ({ timeMs: index, value })))).toBeNull()
  expect(carriedMoment([3, 3, 3, 3, 3].map((value, index) => ({ timeMs: index, value })))).toBeNull()
})

test('a trace is broken where the probe paused, and flat in the middle when it did not move', () => {
  const view = { fromMs: 0, toMs: 100_000 }
  const steady = [0, 1000, 2000, 3000].map((timeMs) => ({ timeMs, value: 7 }))
  expect(traceDrawn(steady, view, 100, 50).path).toBe('M0.0 25.0L1.0 25.0L2.0 25.0L3.0 25.0')
  expect(traceDrawn([...steady, { timeMs: 60_000, value: 7 }], view, 100, 50).path).toMatch(/M60\.0 25\.0$/)
  expect(traceDrawn([], view, 100, 50)).toEqual({ path: '', low: null, high: null })
})
