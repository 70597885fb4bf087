import { describe, expect, test } from 'vitest'
import type { AddSpot, Spot } from '../../../hub/contract/spot.ts'
import { SurveyFile } from '../../../hub/contract/survey.ts'
import { HubError } from '../../../hub/errors.ts'
import { leftOutWhole } from '../../../hub/quality/clean.ts'
import { amendSpot, isSameCapture, receiveSpot } from '../../../hub/survey/receive-spot.ts'
import { spotValues } from '../../../hub/survey/spot-values.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const at = (seconds: number) => new Date(nineOClock + seconds * 1000).toISOString()

/** The pH electrode is carried; nothing is placed. */
function carriedSurvey(): SurveyFile {
  const survey = exampleSurvey()
  return SurveyFile.parse({
    ...survey,
    probes: [
      ...survey.probes.map((probe) => (probe.id === 'PH-1' ? { ...probe, isCarried: true } : probe)),
      {
        id: 'EYE-1',
        quantity: 'soil_ph',
        method: { way: 'direct' },
        board: 'by-hand',
        channel: 'EYE-1',
        isTyped: true,
      },
    ],
    placements: survey.placements.filter(({ probe }) => probe !== 'PH-1'),
  })
}

const held = (from: number, to: number, isSteady = true) => ({ from: at(from), to: at(to), isSteady })

function capture(more: Partial<AddSpot> = {}): AddSpot {
  return {
    id: 'capture-0001',
    quadrat: 'Q2',
    probe: 'PH-1',
    by: 'G3',
    sentAt: at(100),
    held: [held(10, 25), held(40, 55), held(70, 85)],
    ...more,
  }
}

const receive = (more: Partial<AddSpot> = {}, others: Spot[] = [], survey = carriedSurvey()) =>
  receiveSpot(survey, capture(more), others, nineOClock + 100_000)

function codeOf(work: () => unknown): string {
  try {
    work()
  } catch (error) {
    return error instanceof HubError ? error.code : String(error)
  }
  return 'none'
}

describe('a spot reading as it comes from a phone', () => {
  test('is kept with its quadrat, group and insertions', () => {
    expect(receive()).toMatchObject({
      quadrat: 'Q2',
      by: 'G3',
      phoneAheadSeconds: 0,
      isTyped: false,
      replicates: [held(10, 25), held(40, 55), held(70, 85)],
    })
  })

  test('is refused where it cannot be true', () => {
    expect(codeOf(() => receive({ quadrat: 'Q9' }))).toBe('E_NOT_FOUND')
    expect(codeOf(() => receive({ probe: 'PH-9' }))).toBe('E_NOT_FOUND')
    expect(codeOf(() => receive({ held: [held(25, 10)] }))).toBe('E_SPOT_TIME')
    expect(codeOf(() => receive({ held: [held(10, 30), held(20, 40)] }))).toBe('E_SPOT_TIME')
    expect(codeOf(() => receive({ held: [held(90, 106)] }))).toBe('E_SPOT_TIME')
    expect(codeOf(() => receive({ held: [held(10, 10 + 901)] }))).toBe('E_SPOT_TIME')
    const typed = [{ value: 5.6, at: at(50) }]
    expect(codeOf(() => receive({ typed }))).toBe('E_BODY')
    expect(codeOf(() => receive({ probe: 'EYE-1' }))).toBe('E_BODY')
    const lifted = carriedSurvey()
    lifted.quadrats[1]!.lifted = { at: at(60) }
    expect(codeOf(() => receive({}, [], lifted))).toBe('E_QUADRAT_LIFTED')
    expect(receive({ held: [held(10, 25)] }, [], lifted).quadrat).toBe('Q2')
  })

  test('one probe is never at two quadrats at once, but may be where another was taken back', () => {
    const first = receive()
    const second = { id: 'capture-0002', quadrat: 'Q1', held: [held(50, 60)] }
    expect(codeOf(() => receive(second, [first]))).toBe('E_SPOT_ELSEWHERE')
    expect(receive(second, [{ ...first, isTakenBack: true }]).quadrat).toBe('Q1')
    expect(receive({ ...second, held: [held(55, 60)] }, [first]).quadrat).toBe('Q1')
  })

  test('the same capture is recognised, also after it was moved', () => {
    const spot = receive()
    expect(isSameCapture(spot, capture())).toBe(true)
    expect(isSameCapture(spot, capture({ held: [held(10, 25)] }))).toBe(false)
    expect(isSameCapture(spot, capture({ quadrat: 'Q1' }))).toBe(false)
    const moved = amendSpot(carriedSurvey(), spot, { quadrat: 'Q1', reason: 'we stood at Q1' }, nineOClock)
    expect(moved).toMatchObject({ quadrat: 'Q1', amendments: [{ quadrat: 'Q1', reason: 'we stood at Q1' }] })
    expect(isSameCapture(moved, capture())).toBe(true)
  })

  test('typed values are as old as the phone says, whatever day its clock shows', () => {
    const day = 86_400
    const spot = receive({
      probe: 'EYE-1',
      held: undefined,
      sentAt: at(100 + day),
      typed: [
        { value: 5.6, at: at(40 + day) },
        { value: 5.7, at: at(40 + day) },
      ],
    } as Partial<AddSpot>)
    expect(spot.phoneAheadSeconds).toBe(day)
    expect(spot.replicates.map(({ from }) => Date.parse(from) - nineOClock)).toEqual([40_000, 40_001])
    expect(
      codeOf(() =>
        receive({ probe: 'EYE-1', held: undefined, typed: [{ value: 5, at: at(200) }] } as Partial<AddSpot>),
      ),
    ).toBe('E_SPOT_TIME')
  })
})

describe('what a spot reading does', () => {
  const pack = (second: number, millivolt: number) => [
    { bn: 'sedge-1/', bt: nineOClock / 1000 + second, n: 'ph', u: 'mV', v: millivolt },
    // 15 °C after its offset: the temperature of the buffers
    { n: 'temperature', u: 'Cel', v: 15.5 },
  ]

  function walked() {
    const hub = new SmallHub(temporaryFolder())
    hub.keeper.save(carriedSurvey(), 'begin')
    for (let second = 0; second < 100; second += 5)
      hub.send(nineOClock + second * 1000, pack(second, 84 + second))
    hub.keeper.keepSpot(receive({ held: [held(10, 25), held(40, 55), held(70, 85, false)] }))
    return hub
  }

  test('the readings of an insertion are of the quadrat, and between insertions of none', () => {
    const hub = walked()
    const quadratAt = (second: number) =>
      hub.keeper.timelines.at('sedge-1', 'ph', nineOClock + second * 1000)?.quadrat?.label ?? null
    expect([0, 10, 24, 25, 30, 40, 54, 60, 75, 90].map(quadratAt)).toEqual([
      null,
      'Q2',
      'Q2',
      null,
      null,
      'Q2',
      'Q2',
      null,
      'Q2',
      null,
    ])
    const third = hub.keeper.timelines.at('sedge-1', 'ph', nineOClock + 75_000)
    expect(leftOutWhole(third)).toBe('spot reading not steady')
    hub.close()
  })

  test('its value is that of its readings by the calibration in force, with the spread of the steady ones', () => {
    const hub = walked()
    const [value] = spotValues(hub.reader, hub.keeper.timelines, 'example')
    // pH = 7.00 − (E − 8.24)/56.02 by two technical buffers at 15 °C, in soil of 15 °C. Worked by hand:
    // insertions at 10, 15, 20 s read 94, 99, 104 mV, mean 99 → 5.38; at 40, 45, 50 s 124, 129, 134 mV, mean 129 → 4.84
    expect(value!.replicates.map((replicate) => replicate.value!)).toEqual([
      expect.closeTo(5.38, 2),
      expect.closeTo(4.84, 2),
      expect.closeTo(4.31, 2),
    ])
    expect(value).toMatchObject({ quantity: 'soil_ph', unit: 'pH', n: 2 })
    expect(value!.replicates.map(({ leftOut }) => leftOut)).toEqual([null, null, 'spot reading not steady'])
    expect(value!.mean).toBeCloseTo(5.11, 2)
    expect(value!.range).toBeCloseTo(30 / 56.02, 2)
    expect(value!.warnings).toEqual(['pH differs by more than 0.5 between replicates'])
    // s/√n of two values 0.5355 apart is 0.2678; Student's t for one degree of freedom is 12.706: 3.4
    expect(value!.expanded!).toBeGreaterThan(2.5)
    hub.close()
  })

  test('moved or taken back, its readings follow, after a restart too', () => {
    const hub = walked()
    const spot = hub.keeper.timelines.spots[0]!
    hub.keeper.replaceSpot(
      amendSpot(hub.keeper.named('example'), spot, { quadrat: 'Q1', reason: 'wrong tile' }, nineOClock),
    )
    const quadrat = () =>
      hub.keeper.timelines.at('sedge-1', 'ph', nineOClock + 12_000)?.quadrat?.label ?? null
    expect(quadrat()).toBe('Q1')
    const moved = hub.keeper.timelines.spots[0]!
    hub.keeper.replaceSpot(
      amendSpot(
        hub.keeper.named('example'),
        moved,
        { isTakenBack: true, reason: 'probe lay on the grass' },
        nineOClock,
      ),
    )
    expect(quadrat()).toBeNull()
    expect(hub.reader.spots()).toEqual(hub.keeper.timelines.spots)
    expect(hub.reader.spots()[0]!.amendments).toHaveLength(2)
    expect(spotValues(hub.reader, hub.keeper.timelines, 'example')[0]).toMatchObject({ n: 0, mean: null })
    hub.close()
  })
})
