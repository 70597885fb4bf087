import { describe, expect, it } from 'vitest'
import { scaleBarMetres } from '../../dashboard/plan/drawing/scale-bar-metres.ts'
import { walkArcs } from '../../dashboard/plan/drawing/walk-arcs.ts'
import { quadratValues } from '../../dashboard/plan/enough/quadrat-values.ts'
import { freshPlan, freshWanted } from '../../dashboard/plan/form/plan-form.ts'
import {
  liftQuadrat,
  putQuadratBack,
  rejectPlace,
  replaceQuadrat,
  takeQuadratOut,
} from '../../dashboard/plan/list/change-quadrat.ts'
import { phoneAddresses } from '../../dashboard/plan/print/phone-addresses.ts'
import { spokenLabel } from '../../dashboard/plan/print/spoken-label.ts'
import { visitingOrder } from '../../dashboard/plan/print/visiting-order.ts'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SpotValue } from '../../hub/contract/spot.ts'
import { Quadrat, SurveyFile } from '../../hub/contract/survey.ts'

const quadrats = [1, 2, 3].map((number) =>
  Quadrat.parse({ label: `Q${number}`, plot: 'P1', xMetres: number, yMetres: 0 }),
)
const draft = {
  form: {
    ...freshPlan('UTC', '', 1),
    groups: [{ label: 'G1', quadrats: ['Q2', 'Q3'] }],
    wanted: [{ ...freshWanted('soil_ph'), quadrats: ['Q2'] }],
  },
  quadrats,
  walk: ['Q3', 'Q2', 'Q1'],
}

describe('changes to one quadrat by hand', () => {
  it('a new label is followed by the walk, the groups and what is wanted', () => {
    const after = replaceQuadrat(draft, 'Q2', { ...quadrats[1]!, label: 'path' })
    expect(after.quadrats?.map(({ label }) => label)).toEqual(['Q1', 'path', 'Q3'])
    expect(after.walk).toEqual(['Q3', 'path', 'Q1'])
    expect(after.form?.groups[0]?.quadrats).toEqual(['path', 'Q3'])
    expect(after.form?.wanted[0]?.quadrats).toEqual(['path'])
  })
  it('lifting keeps it with the reason, putting back takes that away', () => {
    const lifted = liftQuadrat(draft, 'Q1', 'nest', '2026-06-12T09:00:00Z').quadrats!
    expect(lifted[0]?.lifted).toEqual({ at: '2026-06-12T09:00:00Z', reason: 'nest' })
    expect(putQuadratBack({ ...draft, quadrats: lifted }, 'Q1').quadrats).toEqual(quadrats)
  })
  it('rejecting puts the place on the record of its rule; taking out only removes it', () => {
    const after = rejectPlace(draft, quadrats[1]!, 0, 'path')
    expect(after.form?.plan[0]?.rejected).toEqual([{ xMetres: 2, yMetres: 0, reason: 'path' }])
    expect(after.quadrats?.map(({ label }) => label)).toEqual(['Q1', 'Q3'])
    expect(takeQuadratOut(draft, 'Q2')).toEqual({ quadrats: [quadrats[0], quadrats[2]] })
  })
})

describe('spokenLabel', () => {
  it.each([
    ['Q6', 'Q six'],
    ['Q9', 'Q nine'],
    ['Q10', 'Q ten'],
    ['Q1O', 'Q one letter O'],
    ['Q06', 'Q zero six'],
    ['Q41', 'Q four one'],
    ['Q3a', 'Q three a'],
    ['dry6', 'dry six'],
    ['O5', 'letter O, five'],
  ])('spells %s out as “%s”', (label, spoken) => {
    expect(spokenLabel(label)).toBe(spoken)
  })
})

describe('phoneAddresses', () => {
  const name = { url: 'http://hub.local:8417/', kind: 'name' as const, isReachableByPhones: true }
  const network = { url: 'http://192.0.2.7:8417', kind: 'network' as const, isReachableByPhones: true }
  const loopback = { url: 'http://127.0.0.1:8417', kind: 'loopback' as const, isReachableByPhones: false }
  it('takes what phones can open, the name first', () => {
    expect(phoneAddresses('http://127.0.0.1:8417', [loopback, network, name])).toEqual({
      addresses: ['http://hub.local:8417', 'http://192.0.2.7:8417'],
      isReachableByPhones: true,
    })
  })
  it('says plainly that a loopback address is no good, with or without the hub’s list', () => {
    for (const known of [null, [], [loopback]])
      for (const origin of ['http://127.0.0.1:8417', 'http://localhost:8417', 'http://[::1]:8417'])
        expect(phoneAddresses(origin, known)).toEqual({ addresses: [origin], isReachableByPhones: false })
  })
  it('trusts the address the page came from when it is of the network', () => {
    expect(phoneAddresses('http://192.0.2.7:8417', null).isReachableByPhones).toBe(true)
  })
})

describe('visitingOrder', () => {
  const survey = SurveyFile.parse({
    tussockSurvey: 1,
    id: 'a',
    title: 'a',
    site: { name: 'a' },
    transects: [],
    plots: [{ id: 'P1', widthMetres: 10, heightMetres: 10 }],
    quadrats: [...quadrats, { ...quadrats[0], label: 'Q4', lifted: { at: '2026-06-12T09:00:00Z' } }],
    walk: ['Q3', 'Q1'],
    groups: [{ label: 'G1', quadrats: ['Q2', 'Q1'] }],
  })
  const labels = (group: string) => visitingOrder(survey, group).map(({ label }) => label)
  it('follows the walk, then the list, and leaves lifted ones out', () => {
    expect(labels('')).toEqual(['Q3', 'Q1', 'Q2'])
  })
  it('of a group has its quadrats only, in its own order', () => {
    expect(labels('G1')).toEqual(['Q2', 'Q1'])
  })
})

describe('drawing', () => {
  it('has a scale bar of a round length that fits', () => {
    expect(scaleBarMetres(46, 120)).toBe(2)
    expect(scaleBarMetres(1, 120)).toBe(100)
    expect(scaleBarMetres(120, 120)).toBe(1)
  })
  it('draws an arc for each stretch that is walked, and none for a tangle', () => {
    const on = (count: number) =>
      Array.from({ length: count }, (_, index) => ({
        label: `Q${index}`,
        transect: 'T1',
        distanceMetres: index,
        sideMetres: 0.5,
        gridDivisions: 10,
      }))
    const walk = (count: number) => on(count).map(({ label }) => label)
    expect(walkArcs(on(5), walk(5), (metres) => metres, 0, 40)).toHaveLength(4)
    expect(walkArcs(on(1), walk(1), (metres) => metres, 0, 40)).toEqual([])
    expect(walkArcs(on(61), walk(61), (metres) => metres, 0, 40)).toEqual([])
  })
})

describe('quadratValues', () => {
  const spot = (quadrat: string, mean: number | null, isTakenBack = false): SpotValue => ({
    spot: {
      id: 'abcdefgh',
      survey: 's',
      quadrat,
      probe: 'ph-1',
      receivedAt: '2026-06-12T09:00:00Z',
      phoneAheadSeconds: 0,
      isTyped: false,
      replicates: [],
      isTakenBack,
      amendments: [],
    },
    quantity: 'soil_ph',
    method: { way: 'direct' },
    unit: 'pH',
    replicates: [],
    n: 3,
    mean,
    range: null,
    expanded: null,
    warnings: [],
  })
  const channel = (
    quadrat: string,
    value: number,
    flag: 1 | 3,
    verdict: 'pass' | 'fail' = 'pass',
  ): ChannelNow => ({
    id: 1,
    board: 'b',
    channel: 'c',
    signalUnit: 'mV',
    survey: 's',
    probe: 'ph-2',
    quantity: 'soil_ph',
    method: { way: 'direct' },
    quadrat,
    transect: null,
    distanceMetres: null,
    calibration: 'x',
    verdict,
    valueUnit: 'pH',
    firstMs: 0,
    expectedIntervalSeconds: null,
    latest: [1, 1, 0, 0, value, 0.1, flag],
    why: [],
  })
  it('takes the newest spot reading of a quadrat, then clean standing probes, in the order of visiting', () => {
    const [list] = quadratValues(
      's',
      [spot('Q2', 5.2), spot('Q2', 6.6), spot('Q1', 5), spot('Q3', 9, true), spot('Q4', null)],
      [channel('Q1', 7, 1), channel('Q3', 5.4, 1), channel('Q5', 7, 3), channel('Q6', 7, 1, 'fail')],
      ['Q3', 'Q2', 'Q1'],
    )
    expect(list?.values).toEqual([
      { quadrat: 'Q3', value: 5.4 },
      { quadrat: 'Q2', value: 5.2 },
      { quadrat: 'Q1', value: 5 },
    ])
  })
  it('never mixes unlike methods, nor other surveys', () => {
    const slurry = { ...channel('Q1', 6, 1), method: { way: 'slurry 1:2.5' } }
    const elsewhere = { ...channel('Q9', 6, 1), survey: 'other' }
    const lists = quadratValues('s', [spot('Q1', 5), spot('Q2', 5)], [slurry, elsewhere], [])
    expect(lists.map(({ words, values }) => [words, values.length])).toEqual([
      ['direct', 2],
      ['slurry 1:2.5', 1],
    ])
  })
})
