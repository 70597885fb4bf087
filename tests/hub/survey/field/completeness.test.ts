import { afterEach, describe, expect, test } from 'vitest'
import { Spot } from '../../../../hub/contract/spot.ts'
import { SurveyFile } from '../../../../hub/contract/survey.ts'
import { completenessFacts, heardNow } from '../../../../hub/http/field-facts.ts'
import { completenessOf } from '../../../../hub/survey/field/completeness.ts'
import { exampleSurvey } from '../../../support/example-survey.ts'
import { FieldSide } from '../../../support/field-side.ts'

const at = (time: string) => Date.parse(`2026-06-12T${time}Z`)
const nine = at('09:00:00')

/** The thermometer logs at Q1 from 08:50 on, every 2 s; the electrode is carried. Both are wanted at both quadrats. */
function fieldSurvey(over: Partial<SurveyFile> = {}): SurveyFile {
  const survey = exampleSurvey()
  return SurveyFile.parse({
    ...survey,
    probes: survey.probes
      .filter(({ id }) => id !== 'WIND-1')
      .map((probe) => (probe.id === 'PH-1' ? { ...probe, isCarried: true } : probe)),
    calibrations: survey.calibrations.filter(({ probe }) => probe !== 'WIND-1'),
    placements: [{ probe: 'TEMP-1', quadrat: 'Q1', from: '2026-06-12T08:50:00Z' }],
    wanted: [
      { quantity: 'soil_temperature', by: 'standing', replicates: 1, minutes: 3, quadrats: ['Q1'] },
      { quantity: 'soil_ph', by: 'carried', replicates: 3, minutes: 6 },
    ],
    ...over,
  })
}

let field: FieldSide
afterEach(() => field.close())

function open(survey = fieldSurvey()): FieldSide {
  field = new FieldSide(survey, nine)
  return field
}

/** Every 2 s from one time to another, both included. */
function timesOf(from: string, to: string): number[] {
  return Array.from({ length: (at(to) - at(from)) / 2000 + 1 }, (_, step) => at(from) / 1000 + 2 * step)
}

function sendCelsius(from: string, to: string, celsius: number): void {
  field.hub.send(
    nine,
    timesOf(from, to).map((t) => ({ n: 'sedge-1/temperature', u: 'Cel', v: celsius, t })),
  )
}

/** The electrode, with the thermometer that compensates it. */
function sendPh(from: string, to: string): void {
  field.hub.send(
    nine,
    timesOf(from, to).flatMap((t) => [
      { n: 'sedge-1/temperature', u: 'Cel', v: 12, t },
      { n: 'sedge-1/ph', u: 'mV', v: 84, t },
    ]),
  )
}

function spot(id: string, quadrat: string, spans: [from: string, to: string, isSteady: boolean][]): void {
  field.hub.keeper.keepSpot(
    Spot.parse({
      id,
      survey: 'example',
      quadrat,
      probe: 'PH-1',
      receivedAt: '2026-06-12T09:00:00Z',
      phoneAheadSeconds: 0,
      isTyped: false,
      replicates: spans.map(([from, to, isSteady]) => ({
        from: `2026-06-12T${from}Z`,
        to: `2026-06-12T${to}Z`,
        isSteady,
      })),
    }),
  )
}

function cell(quadrat: string, quantity: string) {
  const survey = field.hub.keeper.named('example')
  const { cells } = completenessOf(completenessFacts(field.side, survey, heardNow(field.side)))
  return cells.find((each) => each.quadrat === quadrat && each.quantity === quantity)!
}

describe('completeness of a probe that stands and logs, against a truth made by hand', () => {
  test('received of expected, with the gap in the middle and the one at the end, to the second', () => {
    open()
    sendCelsius('08:50:00', '08:53:58', 12)
    sendCelsius('08:56:00', '08:58:58', 13)
    const found = cell('Q1', 'soil_temperature')
    // by hand: 120 and 90 readings of 600 s / 2 s = 300
    expect(found.standing).toEqual([
      {
        probe: 'TEMP-1',
        board: 'sedge-1',
        isThere: true,
        isLogging: false,
        received: 210,
        expected: 300,
        completeness: 0.7,
        gaps: [
          { fromMs: at('08:53:58'), toMs: at('08:56:00') },
          { fromMs: at('08:58:58'), toMs: nine },
        ],
      },
    ])
    expect(found).toMatchObject({
      state: 'partly',
      got: 1,
      needed: 1,
      isCalibrated: true,
      isClockKnown: true,
    })
    expect(found.missing).toEqual([{ kind: 'board', words: 'board sedge-1 is silent', of: 'sedge-1' }])
    // −0.5 °C of its calibration
    expect(found.last).toMatchObject({ value: 12.5, timeMs: at('08:58:58') })
  })
  test('all there: complete, without gaps; one reading is a gap from the placement and to now', () => {
    open()
    sendCelsius('08:50:00', '08:59:58', 12)
    expect(cell('Q1', 'soil_temperature')).toMatchObject({ state: 'complete', missing: [], minutes: 0 })
    expect(cell('Q1', 'soil_temperature').standing[0]).toMatchObject({
      completeness: 1,
      gaps: [],
      isLogging: true,
    })
    field.close()
    open()
    sendCelsius('08:55:00', '08:55:00', 12)
    expect(cell('Q1', 'soil_temperature').standing[0]!.gaps).toEqual([
      { fromMs: at('08:50:00'), toMs: at('08:55:00') },
      { fromMs: at('08:55:00'), toMs: nine },
    ])
  })
  test('nothing at all is one gap; a pause of two and a half intervals is none, one a little longer is', () => {
    open()
    expect(cell('Q1', 'soil_temperature')).toMatchObject({
      state: 'missing',
      got: 0,
      standing: [{ received: 0, completeness: 0, gaps: [{ fromMs: at('08:50:00'), toMs: nine }] }],
    })
    sendCelsius('08:50:00', '08:54:00', 12)
    sendCelsius('08:54:05', '08:59:59', 12)
    expect(cell('Q1', 'soil_temperature').standing[0]!.gaps).toEqual([])
    field.close()
    open()
    sendCelsius('08:50:00', '08:54:00', 12)
    sendCelsius('08:54:06', '08:59:58', 12)
    expect(cell('Q1', 'soil_temperature').standing[0]!.gaps).toEqual([
      { fromMs: at('08:54:00'), toMs: at('08:54:06') },
    ])
  })
  test('a probe that was lifted is judged up to then, and what is past cannot be mended', () => {
    open(
      fieldSurvey({
        placements: [
          { probe: 'TEMP-1', quadrat: 'Q1', from: '2026-06-12T08:50:00Z', to: '2026-06-12T08:52:00Z' },
        ],
      }),
    )
    sendCelsius('08:50:00', '08:51:58', 12)
    expect(cell('Q1', 'soil_temperature')).toMatchObject({
      state: 'complete',
      missing: [],
      standing: [{ isThere: false, isLogging: false, expected: 60, received: 60, completeness: 1 }],
    })
  })
  test('where it is not wanted nothing is missing; where it is wanted and nothing stands, a probe is', () => {
    open()
    expect(cell('Q2', 'soil_temperature')).toMatchObject({ state: 'not wanted', missing: [] })
    field.close()
    open(
      fieldSurvey({
        wanted: [{ quantity: 'soil_temperature', method: {}, by: 'standing', replicates: 1, minutes: 3 }],
      }),
    )
    expect(cell('Q2', 'soil_temperature').missing).toEqual([
      { kind: 'probe', words: 'soil temperature: no probe stands here', of: null },
    ])
  })
  test('without a passing calibration, and with an impossible clock, that is said', () => {
    open(fieldSurvey({ calibrations: [] }))
    // a clock of 2001: all of the message is shifted to its arrival, and the times are not to be trusted
    field.hub.send(nine, [{ n: 'sedge-1/temperature', u: 'Cel', v: 12, t: 1_000_000_000 }])
    field.nowMs = nine + 1000
    const found = cell('Q1', 'soil_temperature')
    expect(found).toMatchObject({ isCalibrated: false, isClockKnown: false })
    expect(found.missing.map(({ kind, of }) => [kind, of])).toEqual([
      ['calibration', 'TEMP-1'],
      ['clock', 'sedge-1'],
    ])
  })
  test('a calibration that was in force then counts, however old it is when one looks', () => {
    open()
    sendCelsius('08:50:00', '08:59:58', 12)
    // the interval of a thermometer is 365 days (contract/quantity.ts)
    field.nowMs = nine + 400 * 86_400_000
    expect(cell('Q1', 'soil_temperature').isCalibrated).toBe(true)
  })
})

describe('completeness of a meter that is carried', () => {
  test('clean replicates count; what had not settled or was taken back does not', () => {
    open()
    sendPh('08:51:00', '08:53:00')
    spot('spot-0001', 'Q2', [
      ['08:51:00', '08:51:20', true],
      ['08:51:30', '08:51:50', true],
      ['08:52:00', '08:52:20', false],
    ])
    expect(cell('Q2', 'soil_ph')).toMatchObject({
      state: 'partly',
      got: 2,
      needed: 3,
      isSteady: false,
      isCalibrated: true,
      isClockKnown: true,
      // a third of six minutes
      minutes: 2,
      missing: [{ kind: 'measure', words: 'soil pH: 2 of 3 replicates, 1 more to take', of: null }],
      remarks: ['1 replicate had not settled and does not count'],
    })
    expect(cell('Q1', 'soil_ph')).toMatchObject({ state: 'missing', got: 0, minutes: 6, isSteady: null })
    spot('spot-0002', 'Q2', [['08:52:30', '08:52:50', true]])
    expect(cell('Q2', 'soil_ph')).toMatchObject({ state: 'complete', got: 3, missing: [], isSteady: true })
    field.hub.keeper.replaceSpot({ ...field.hub.keeper.timelines.spots[1]!, isTakenBack: true })
    expect(cell('Q2', 'soil_ph')).toMatchObject({ state: 'partly', got: 2 })
  })
  test('held without a calibration: to be calibrated, not to be measured again', () => {
    open(fieldSurvey({ calibrations: [] }))
    sendPh('08:51:00', '08:53:00')
    spot('spot-0001', 'Q2', [
      ['08:51:00', '08:51:20', true],
      ['08:51:30', '08:51:50', true],
      ['08:52:00', '08:52:20', true],
    ])
    expect(cell('Q2', 'soil_ph')).toMatchObject({ got: 0, isCalibrated: false, minutes: 0 })
    expect(cell('Q2', 'soil_ph').missing.map(({ kind, of }) => [kind, of])).toEqual([['calibration', 'PH-1']])
  })
})

test('a survey that does not say what is wanted is read off its probes: standing ones where they stood, carried ones everywhere', () => {
  open(fieldSurvey({ wanted: [] }))
  const survey = field.hub.keeper.named('example')
  const made = completenessOf(completenessFacts(field.side, survey, heardNow(field.side)))
  expect(made.isWantedGiven).toBe(false)
  expect(made.wanted).toMatchObject([
    { quantity: 'soil_ph', by: 'carried', replicates: 3 },
    { quantity: 'soil_temperature', by: 'standing', replicates: 1, quadrats: ['Q1'] },
  ])
  expect(made.cells.map(({ quadrat, quantity, state }) => `${quadrat} ${quantity} ${state}`)).toEqual([
    'Q1 soil_ph missing',
    'Q1 soil_temperature missing',
    'Q2 soil_ph missing',
    'Q2 soil_temperature not wanted',
  ])
})
