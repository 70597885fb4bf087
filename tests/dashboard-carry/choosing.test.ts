import { describe, expect, test } from 'vitest'
import type { Capture } from '../../dashboard/carry/capture.ts'
import { quadratOnCard } from '../../dashboard/carry/card-address.ts'
import {
  groupsOfQuadrat,
  isGroupLabel,
  isOfOthers,
  quadratsOfGroup,
} from '../../dashboard/carry/group-label.ts'
import { chosenMeter, meterName, metersOf, meterText } from '../../dashboard/carry/meters.ts'
import { nextQuadrat } from '../../dashboard/carry/next-quadrat.ts'
import { isDoneFor, progressAt, replicatesFor, wantedByCarrying } from '../../dashboard/carry/progress.ts'
import { takenToday } from '../../dashboard/carry/taken-today.ts'
import { pathTo } from '../../dashboard/router.ts'
import type { SpotValue } from '../../hub/contract/spot.ts'
import { type Probe, Quadrat, SurveyFile } from '../../hub/contract/survey.ts'

const onTransect = (label: string, distanceMetres: number, more: object = {}) =>
  Quadrat.parse({ label, transect: 'T1', distanceMetres, ...more })

const quadrats = [onTransect('Q1', 1), onTransect('Q2', 4), onTransect('Q3', 6), onTransect('Q4', 12)]
const groups = [
  { label: 'G1', quadrats: ['Q1', 'Q2'] },
  { label: 'G2', quadrats: ['Q3', 'Q4'] },
]

const probe = (id: string, board: string, quantity: string, more: Partial<Probe> = {}): Probe => ({
  id,
  board,
  quantity,
  channel: id.toLowerCase(),
  method: { way: 'direct' },
  isCarried: true,
  ...more,
})
const electrode = probe('PH-1', 'sedge-1', 'soil_ph')
const thermometer = probe('TEM-1', 'sedge-1', 'soil_temperature', { method: { depthCentimetres: 5 } })
const byEye = probe('EYE-1', 'by-hand', 'soil_ph', { isTyped: true, method: { way: 'slurry' } })

const spot = (quadrat: string, n: number, more: Partial<SpotValue> = {}, ofSpot: object = {}): SpotValue => ({
  spot: {
    id: `spot-${quadrat}-${n}`,
    survey: 'example',
    quadrat,
    probe: 'PH-1',
    receivedAt: '2026-06-12T09:00:00Z',
    phoneAheadSeconds: 0,
    isTyped: false,
    replicates: [{ from: '2026-06-12T09:00:00Z', to: '2026-06-12T09:00:16Z', isSteady: true }],
    isTakenBack: false,
    amendments: [],
    ...ofSpot,
  },
  quantity: 'soil_ph',
  method: { way: 'direct' },
  unit: 'pH',
  replicates: Array.from({ length: n }, () => ({
    from: '',
    to: '',
    isSteady: true,
    value: 6,
    uncertainty: 0.04,
    readings: 4,
    leftOut: null,
  })),
  n,
  mean: 6,
  range: 0,
  expanded: 0.1,
  warnings: [],
  ...more,
})

// expected values of this file follow from the definitions in its own arrangement; walking rules: common practice, no source
describe('who carries', () => {
  test('a group is a label with a number, never a name', () => {
    expect(['G3', '7', 'g12', 'Y9 4b', 'ab-3'].every(isGroupLabel)).toBe(true)
    expect(['', 'Emma', 'Tom B', 'Group three', 'Alexander 7', 'G1234'].some(isGroupLabel)).toBe(false)
  })

  test('a group’s quadrats are its own, and another group’s are never shown as such', () => {
    expect(quadratsOfGroup({ groups }, 'G2')).toEqual(['Q3', 'Q4'])
    expect(quadratsOfGroup({ groups }, 'G9')).toEqual([])
    expect(groupsOfQuadrat({ groups }, 'Q1')).toEqual(['G1'])
    expect(isOfOthers({ groups }, 'G2', 'Q1')).toBe(true)
    expect(isOfOthers({ groups }, 'G2', 'Q3')).toBe(false)
    expect(isOfOthers({ groups }, null, 'Q3')).toBe(true)
    expect(isOfOthers({}, 'G2', 'Q1')).toBe(false)
  })
})

describe('what is carried', () => {
  test('carried probes of one board are one meter, each meter read by eye is another, standing probes are none', () => {
    const meters = metersOf({
      probes: [
        electrode,
        thermometer,
        byEye,
        probe('LUX-1', 'heath-2', 'illuminance', { isCarried: false }),
        probe('PH-9', 'heath-9', 'soil_ph', { withdrawn: { at: '2026-06-01T00:00:00Z', reason: 'broken' } }),
      ],
    })
    expect(meters.map(meterName)).toEqual(['PH-1 + TEM-1', 'EYE-1'])
    expect(meters.map(meterText)).toEqual([
      'Soil pH and soil temperature, on board sedge-1',
      'Soil pH, read by eye and typed in',
    ])
    expect(chosenMeter(meters, null)).toBeNull()
    expect(chosenMeter(meters, 'eye:EYE-1')?.probes).toEqual([byEye])
    expect(chosenMeter(meters.slice(0, 1), 'gone')?.id).toBe('sedge-1')
  })
})

describe('where to go next', () => {
  const next = (own: string[], here: string | null, done: string[], walk?: string[]) =>
    nextQuadrat({ quadrats, ...(walk ? { walk } : {}) }, own, here, (label) => done.includes(label))?.label ??
    null

  test('in walking order, after the one just left, and round again', () => {
    const walk = ['Q3', 'Q1', 'Q4', 'Q2']
    expect(next([], null, [], walk)).toBe('Q3')
    expect(next([], 'Q1', ['Q1'], walk)).toBe('Q4')
    expect(next([], 'Q2', ['Q2', 'Q3'], walk)).toBe('Q1')
    expect(next([], 'Q2', ['Q1', 'Q2', 'Q3', 'Q4'], walk)).toBeNull()
  })

  test('without an order, the nearest that is not done; at the start the first of the survey', () => {
    expect(next([], null, [])).toBe('Q1')
    expect(next([], 'Q2', ['Q2'])).toBe('Q3')
    expect(next([], 'Q2', ['Q2', 'Q3'])).toBe('Q1')
    // of two as near, the one further on
    const even = [onTransect('A', 1), onTransect('B', 3), onTransect('C', 5)]
    expect(nextQuadrat({ quadrats: even }, [], 'B', () => false)?.label).toBe('C')
  })

  test('only the group’s own quadrats are suggested, and none whose frame was taken up', () => {
    expect(next(['Q3', 'Q4'], 'Q2', ['Q3'])).toBe('Q4')
    expect(next(['Q3', 'Q4'], 'Q3', ['Q3', 'Q4'])).toBeNull()
    const lifted = onTransect('Q5', 4.5, { lifted: { at: '2026-06-12T10:00:00Z' } })
    expect(nextQuadrat({ quadrats: [...quadrats, lifted] }, [], 'Q2', () => false)?.label).toBe('Q3')
  })

  test('a quadrat whose distance is not known comes after those that are near', () => {
    const inPlot = Quadrat.parse({ label: 'P1', plot: 'A', xMetres: 0, yMetres: 0 })
    expect(nextQuadrat({ quadrats: [inPlot, ...quadrats] }, [], 'Q1', () => false)?.label).toBe('Q2')
  })
})

describe('how far a quadrat is', () => {
  const meters = metersOf({ probes: [electrode, thermometer, byEye] })
  const survey = SurveyFile.shape.wanted.parse([
    { quantity: 'soil_ph', method: { way: 'direct' }, replicates: 3 },
    { quantity: 'soil_temperature', by: 'standing', replicates: 1 },
    { quantity: 'soil_temperature', replicates: 1, quadrats: ['Q2'] },
  ])!
  const wanted = wantedByCarrying({ wanted: survey }, meters)
  const waiting = (quadrat: string, steady: number): Capture => ({
    id: 'waits',
    survey: 'example',
    spot: {
      id: 'waits',
      quadrat,
      probe: 'PH-1',
      held: Array.from({ length: 3 }, (_, index) => ({ from: '', to: '', isSteady: index < steady })),
    },
    takenMs: 0,
    quantity: 'soil_ph',
    unit: 'pH',
    values: [6, 6, 6],
    state: 'waiting',
    refusal: null,
  })
  const at = (quadrat: string, spots: SpotValue[], unsent: Capture[] = []) =>
    progressAt(quadrat, wanted, spots, unsent, [electrode, thermometer, byEye])

  test('none, some, done, by the clean replicates of the wanted quantity and method', () => {
    expect(at('Q1', [])).toMatchObject([{ quantity: 'soil_ph', state: 'none', got: 0, needed: 3 }])
    expect(at('Q1', [spot('Q1', 2)])).toMatchObject([{ state: 'some', got: 2 }])
    expect(at('Q1', [spot('Q1', 2), spot('Q1', 1)])).toMatchObject([{ state: 'done', got: 3 }])
    expect(at('Q1', [spot('Q2', 3)])).toMatchObject([{ state: 'none' }])
    expect(at('Q1', [spot('Q1', 3, { method: { way: 'slurry' } })])).toMatchObject([{ state: 'none' }])
    expect(at('Q1', [spot('Q1', 3, {}, { isTakenBack: true })])).toMatchObject([{ state: 'none' }])
    expect(at('Q1', [spot('Q1', 3, { n: 1 })])).toMatchObject([{ state: 'some', got: 1, notCounted: 2 }])
    expect(at('Q2', []).map(({ quantity }) => quantity)).toEqual(['soil_ph', 'soil_temperature'])
  })

  test('what waits on this phone counts, once, and only its steady replicates', () => {
    expect(at('Q1', [], [waiting('Q1', 3)])).toMatchObject([{ state: 'done', unsent: 3 }])
    expect(at('Q1', [], [waiting('Q1', 2)])).toMatchObject([{ state: 'some', got: 2, unsent: 2 }])
    expect(at('Q1', [spot('Q1', 3, {}, { id: 'waits' })], [waiting('Q1', 3)])).toMatchObject([
      { got: 3, unsent: 0 },
    ])
    expect(at('Q1', [], [{ ...waiting('Q1', 3), state: 'refused' }])).toMatchObject([{ state: 'none' }])
  })

  test('what the survey does not say is taken from the meters, three times each', () => {
    expect(wantedByCarrying({}, meters).map(({ quantity, replicates }) => [quantity, replicates])).toEqual([
      ['soil_ph', 3],
      ['soil_temperature', 3],
      // the slurry is another quantity than direct insertion
      ['soil_ph', 3],
    ])
    expect(replicatesFor(wanted, meters[0]!)).toBe(3)
    expect(replicatesFor([], meters[1]!)).toBe(3)
  })

  test('done for a meter is what that meter measures', () => {
    const [ofBoth] = meters
    expect(isDoneFor(at('Q2', [spot('Q2', 3)]), ofBoth!)).toBe(false)
    expect(isDoneFor(at('Q2', [spot('Q2', 3)]), meters[1]!)).toBe(true)
  })
})

describe('what was taken today', () => {
  test('by the group or with this phone, on the day of the site', () => {
    const spots = [
      spot('Q1', 1, {}, { id: 'a', by: 'G1' }),
      spot('Q2', 1, {}, { id: 'b', by: 'G2' }),
      spot('Q3', 1, {}, { id: 'c' }),
      spot(
        'Q4',
        1,
        {},
        {
          id: 'd',
          by: 'G1',
          replicates: [{ from: '2026-06-11T09:00:00Z', to: '2026-06-11T09:00:16Z', isSteady: true }],
        },
      ),
    ]
    const ids = (group: string | null, here: string[], now = '2026-06-12T12:00:00Z', zone?: string) =>
      takenToday(spots, group, here, Date.parse(now), zone).map(({ spot: { id } }) => id)
    expect(ids('G1', [], undefined, 'UTC')).toEqual(['a'])
    expect(ids('G1', ['c'], undefined, 'UTC')).toEqual(['a', 'c'])
    expect(ids(null, ['c', 'd'], undefined, 'UTC')).toEqual(['c'])
    // 23:30 UTC is the next day in Helsinki
    expect(ids('G1', [], '2026-06-12T23:30:00Z', 'Europe/Helsinki')).toEqual([])
  })
})

describe('a card', () => {
  test('opens the quadrat whose address is on it, whichever address the hub had when it was printed', () => {
    const path = pathTo.carry('meadow 1', 'Q 5/a')
    expect(quadratOnCard(`http://192.168.4.1:8080${path}`, 'meadow 1')).toBe('Q 5/a')
    expect(quadratOnCard(`http://hub.local${path}`, 'meadow 1')).toBe('Q 5/a')
    expect(quadratOnCard(`http://hub.local${path}`, 'wood')).toBeNull()
    expect(quadratOnCard('http://hub.local/carry/wood', 'wood')).toBeNull()
    expect(quadratOnCard('just words', 'wood')).toBeNull()
  })
})
