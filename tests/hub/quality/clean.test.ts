import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exportQuery } from '../../../hub/contract/export-query.ts'
import type { FlagReason } from '../../../hub/contract/flag.ts'
import { countClean } from '../../../hub/export/clean-count.ts'
import { readingsCsv } from '../../../hub/export/readings-csv.ts'
import { leftOutBy } from '../../../hub/quality/clean.ts'
import { addDecision, takeBackDecision } from '../../../hub/survey/change-survey.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const at = (second: number) => new Date(nineOClock + second * 1000).toISOString()
const rows = (hub: SmallHub, set: string) =>
  [...readingsCsv(hub.reader, hub.keeper.timelines, exportQuery.parse({ set, survey: 'example' }))]
    .join('')
    .trim()
    .split('\r\n')
    .slice(1)

/** Readings of a thermometer: one a second, with one too hot (suspect), one fault code (fail). */
function filledHub(): SmallHub {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  for (let second = 0; second < 20; second++) {
    const celsius = second === 5 ? 45 : second === 6 ? -127 : 12
    hub.send(nineOClock + second * 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: celsius }])
  }
  return hub
}

const exclude = (hub: SmallHub, from: number, to: number) =>
  hub.keeper.change(
    'example',
    'decided',
    (survey) =>
      addDecision(
        survey,
        {
          probe: 'TEMP-1',
          from: at(from),
          to: at(to),
          action: 'exclude',
          reason: 'someone sat on the cable',
          by: 'group 2',
        },
        nineOClock,
      ).survey,
  )

describe('decisions by hand', () => {
  test('an excluded span leaves the clean set with its reason; nothing else changes, and taking it back restores it', () => {
    const hub = filledHub()
    const before = rows(hub, 'clean')
    exclude(hub, 10, 15)
    expect(rows(hub, 'clean')).toEqual(before.filter((row) => row < at(10) || row >= at(15)))
    const excluded = rows(hub, 'excluded').filter((row) => row.includes('excluded by hand'))
    expect(excluded).toHaveLength(5)
    expect(excluded[0]).toMatch(/,excluded by hand,"someone sat on the cable"$/)
    hub.keeper.change('example', 'taken back', (survey) =>
      takeBackDecision(survey, 'd1', 'group 2', nineOClock),
    )
    expect(rows(hub, 'clean')).toEqual(before)
    const [decision] = hub.keeper.timelines.surveys[0]!.decisions!
    expect(decision).toMatchObject({
      id: 'd1',
      reason: 'someone sat on the cable',
      takenBack: { by: 'group 2' },
    })
    expect(() =>
      hub.keeper.change('example', 'again', (survey) => takeBackDecision(survey, 'd1', undefined, 0)),
    ).toThrow(/d1/)
    hub.close()
  })
  test('a suspect reading may be accepted by a person, a failed one may not', () => {
    const hub = filledHub()
    hub.keeper.change(
      'example',
      'decided',
      (survey) =>
        addDecision(
          survey,
          { probe: 'TEMP-1', from: at(0), to: at(20), action: 'accept', reason: 'bare soil in full sun' },
          nineOClock,
        ).survey,
    )
    const clean = rows(hub, 'clean')
    expect(clean).toHaveLength(19)
    expect(clean.some((row) => row.includes(',3,TEMP-1'))).toBe(true)
    expect(rows(hub, 'excluded').map((row) => row.split(',')[14])).toEqual(['fault-code'])
    hub.close()
  })
  test('a decision without a reason, of an unknown probe, or that ends before it begins is refused', () => {
    const hub = filledHub()
    const decision = {
      probe: 'TEMP-1',
      from: at(0),
      to: at(5),
      action: 'exclude' as const,
      reason: 'because',
    }
    for (const over of [{ reason: ' ' }, { probe: 'NO-1' }, { to: at(0) }])
      expect(() =>
        hub.keeper.change(
          'example',
          'x',
          (survey) => addDecision(survey, { ...decision, ...over }, 0).survey,
        ),
      ).toThrow(expect.objectContaining({ code: 'E_SURVEY_FILE' }))
    hub.close()
  })
})

describe('clean + excluded = all, exactly', () => {
  test('whatever comes, is placed, calibrated and decided: every reading is in one of the two sets and in one only', () => {
    const celsius = fc.oneof(fc.integer({ min: -20, max: 60 }), fc.constantFrom(-127, 85, 45))
    const span = fc.tuple(fc.integer({ min: -4000, max: 60 }), fc.integer({ min: 1, max: 4000 }))
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -9000, max: 60 }), celsius), { maxLength: 60 }),
        fc.array(fc.tuple(span, fc.constantFrom('exclude' as const, 'accept' as const)), { maxLength: 4 }),
        fc.boolean(),
        (readings, decisions, isSealed) => {
          const hub = new SmallHub(temporaryFolder())
          hub.keeper.save(exampleSurvey(), 'test')
          for (const [second, value] of readings)
            hub.send(nineOClock + second * 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: value }])
          if (isSealed) hub.writer.seal()
          for (const [[from, length], action] of decisions)
            hub.keeper.change(
              'example',
              'decided',
              (survey) =>
                addDecision(
                  survey,
                  { probe: 'TEMP-1', from: at(from), to: at(from + length), action, reason: 'tried' },
                  nineOClock,
                ).survey,
            )
          // signal and time tell rows apart; a reading twice over must be there twice
          const key = (row: string) => row.split(',').slice(0, 14).join(',')
          const all = rows(hub, 'all').map(key).sort()
          const clean = rows(hub, 'clean').map(key)
          const excluded = rows(hub, 'excluded').map(key)
          expect(all).toHaveLength(readings.length)
          expect([...clean, ...excluded].sort()).toEqual(all)
          const count = countClean(hub.reader, hub.keeper.timelines, 'example')
          expect(count).toMatchObject({ all: all.length, clean: clean.length })
          expect(count.leftOut.reduce((sum, { n }) => sum + n, 0)).toBe(excluded.length)
          hub.close()
        },
      ),
      { numRuns: 40 },
    )
  })
  test('the one function that defines clean says the same of every reading as the download', () => {
    const hub = filledHub()
    exclude(hub, 10, 15)
    const { timelines } = hub.keeper
    const reasons = Array.from({ length: 20 }, (_, second) => {
      const row = hub.reader.reading((second + 1) * 1024)!
      const why = row.why ? (JSON.parse(row.why) as FlagReason[]) : []
      return leftOutBy(timelines.at('sedge-1', 'temperature', row.timeMs), { ...row, reasons: why })
    })
    expect(reasons.filter((reason) => reason === null)).toHaveLength(rows(hub, 'clean').length)
    expect(rows(hub, 'excluded').map((row) => row.split(',')[14])).toEqual(
      reasons.filter((reason) => reason !== null),
    )
    hub.close()
  })
  test('the sentence has every reason with its count', () => {
    const hub = filledHub()
    exclude(hub, 10, 15)
    expect(countClean(hub.reader, hub.keeper.timelines, 'example').sentence).toBe(
      'Of 20 readings 13 are clean; left out: 5 excluded by hand, 1 fault-code, 1 range.',
    )
    hub.close()
  })
})
