import { describe, expect, test } from 'vitest'
import { exportQuery } from '../../../hub/contract/export-query.ts'
import type { CheckStandard } from '../../../hub/contract/survey.ts'
import { readingsCsv } from '../../../hub/export/readings-csv.ts'
import { quadratSeries } from '../../../hub/http/quadrat-series.ts'
import { addCalibration, addCheck, setDrift, withdrawProbe } from '../../../hub/survey/change-survey.ts'
import { previewChange } from '../../../hub/survey/preview-change.ts'
import { readinessOf } from '../../../hub/survey/readiness.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const DAY_MS = 86_400_000
const thermometer = (survey: ReturnType<typeof exampleSurvey>, nowMs: number) =>
  readinessOf(survey, nowMs).find(({ probe }) => probe === 'TEMP-1')!
const check = (over: Partial<CheckStandard> = {}): CheckStandard => ({
  id: 'check-1',
  probe: 'TEMP-1',
  at: '2026-06-12T08:30:00Z',
  when: 'before',
  reference: 20,
  referenceName: 'class thermometer',
  signal: 20.7,
  signalUnit: 'Cel',
  ...over,
})

describe('readiness: may a probe go out?', () => {
  test('calibrated but never checked is not ready; checked within its limit is', () => {
    expect(thermometer(exampleSurvey(), nineOClock)).toMatchObject({ state: 'not checked', mayGoOut: false })
    // 20.70 at a reference of 20.0 with an offset of −0.5: 0.2 off, 0.3 °C allowed (common practice)
    const ready = thermometer(addCheck(exampleSurvey(), check()), nineOClock)
    expect(ready).toMatchObject({ state: 'ready', mayGoOut: true })
    expect(ready.checks[0]!.error).toBeCloseTo(0.2, 9)
  })
  test('a check beyond the limit fails, whatever the calibration says; a later good one heals it', () => {
    const failed = addCheck(exampleSurvey(), check({ signal: 21.2 }))
    expect(thermometer(failed, nineOClock)).toMatchObject({ state: 'failed', mayGoOut: false })
    const healed = addCheck(failed, check({ id: 'check-2', at: '2026-06-12T08:40:00Z' }))
    expect(thermometer(healed, nineOClock).state).toBe('ready')
  })
  test('a check from before the calibration says nothing about it', () => {
    const survey = addCheck(exampleSurvey(), check({ at: '2026-06-12T06:00:00Z' }))
    expect(thermometer(survey, nineOClock).state).toBe('not checked')
    expect(thermometer(survey, nineOClock).checks[0]!.reading).toBeNull()
  })
  test('a calibration is due the moment it is older than its interval, by the quantity’s or the probe’s own', () => {
    const survey = addCheck(exampleSurvey(), check())
    const calibrated = Date.parse('2026-06-12T07:00:00Z')
    expect(thermometer(survey, calibrated + 365 * DAY_MS).state).toBe('ready')
    expect(thermometer(survey, calibrated + 365 * DAY_MS + 1).state).toBe('due')
    survey.probes[1]!.calibrationIntervalDays = 2
    expect(thermometer(survey, calibrated + 2 * DAY_MS).state).toBe('ready')
    expect(thermometer(survey, calibrated + 2 * DAY_MS + 1).state).toBe('due')
  })
  test('a failed attempt does not come into force: the one before stays, with its age', () => {
    const failing = addCalibration(exampleSurvey(), {
      id: 'ph-cal-bad',
      probe: 'PH-1',
      validFrom: '2026-06-12T08:45:00Z',
      recipe: {
        kind: 'ph-electrode',
        points: [
          { ph: 7.06, temperatureCelsius: 10, millivolt: -41 },
          { ph: 4.0, temperatureCelsius: 10, millivolt: 86 },
        ],
      },
    })
    const electrode = readinessOf(failing, nineOClock).find(({ probe }) => probe === 'PH-1')!
    expect(electrode).toMatchObject({ state: 'failed', calibration: 'ph-cal-1', lastAttemptFailed: true })
    expect(electrode.ageDays).toBeCloseTo(2 / 24, 6)
  })
  test('a probe without any calibration, and one withdrawn with a reason, say so', () => {
    const bare = { ...exampleSurvey(), calibrations: [] }
    expect(thermometer(bare, nineOClock).state).toBe('never calibrated')
    const withdrawn = withdrawProbe(exampleSurvey(), 'TEMP-1', 'tip cracked', nineOClock)
    expect(thermometer(withdrawn, nineOClock)).toMatchObject({
      state: 'withdrawn',
      why: 'Withdrawn: tip cracked.',
    })
    expect(thermometer(withdrawProbe(withdrawn, 'TEMP-1', null, nineOClock), nineOClock).state).toBe(
      'not checked',
    )
  })
})

function filledHub(): SmallHub {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  for (let minute = 0; minute < 6; minute++)
    hub.send(nineOClock + minute * 60_000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 10 + minute }])
  return hub
}

describe('what would change', () => {
  test('a calibration tried out tells each quadrat’s mean before and after, and stores nothing', async () => {
    const hub = filledHub()
    const before = hub.reader.series(1, 0, 1e14, 100)
    const tried = addCalibration(exampleSurvey(), {
      id: 'temp-cal-2',
      probe: 'TEMP-1',
      validFrom: '2026-06-12T09:03:00Z',
      recipe: { kind: 'digital-temperature', offsetCelsius: 1 },
    })
    // signals 13, 14, 15 from 09:03 on: −0.5 before, +1 after
    expect(await previewChange(hub.reader, hub.keeper.timelines, tried)).toEqual([
      {
        quadrat: 'Q1',
        quantity: 'soil_temperature',
        unit: 'Cel',
        readings: 3,
        valuesBefore: 3,
        valuesAfter: 3,
        meanBefore: 13.5,
        meanAfter: 15,
        smallestMove: 1.5,
        largestMove: 1.5,
      },
    ])
    expect(hub.reader.series(1, 0, 1e14, 100)).toEqual(before)
    hub.close()
  })
  test('a calibration that changes nothing moves nothing', async () => {
    const hub = filledHub()
    expect(await previewChange(hub.reader, hub.keeper.timelines, exampleSurvey())).toEqual([])
    hub.close()
  })
})

describe('drift found by a check after fieldwork', () => {
  // calibrated 07:00, checked 11:00 against 20.0 with the signal 20.9: reads 20.4, so 0.4 °C of drift in 4 h
  const drifted = () => {
    const checked = addCheck(
      exampleSurvey(),
      check({ id: 'after-1', when: 'after', at: '2026-06-12T11:00:00Z', signal: 20.9 }),
    )
    return setDrift(checked, { probe: 'TEMP-1', calibration: 'temp-cal-1', checks: ['after-1'] })
  }
  const wish = { survey: 'example', quadrat: 'Q1', quantity: undefined, fromMs: 0, toMs: 1e14, steps: 100 }

  test('nothing is corrected that nobody asked for', () => {
    const hub = filledHub()
    hub.keeper.save(
      addCheck(
        exampleSurvey(),
        check({ id: 'after-1', when: 'after', at: '2026-06-12T11:00:00Z', signal: 20.9 }),
      ),
      'checked',
    )
    expect(quadratSeries(hub.reader, hub.keeper.timelines, wish)[0]!.corrected).toBeNull()
    hub.close()
  })
  test('asked for, it grows in a straight line of time, and stands beside the uncorrected values', () => {
    const hub = filledHub()
    hub.keeper.save(drifted(), 'drift')
    const [series] = quadratSeries(hub.reader, hub.keeper.timelines, wish)
    expect(series!.mean).toEqual([9.5, 10.5, 11.5, 12.5, 13.5, 14.5])
    for (const [minute, corrected] of series!.corrected!.entries())
      expect(corrected).toBeCloseTo(9.5 + minute - (0.4 * (120 + minute)) / 240, 9)
    hub.close()
  })
  test('the download shows both, in two more columns, and the same numbers as the mathematics', () => {
    const hub = filledHub()
    hub.keeper.save(drifted(), 'drift')
    const rows = (drift: string) =>
      [...readingsCsv(hub.reader, hub.keeper.timelines, exportQuery.parse({ drift }))]
        .join('')
        .trim()
        .split('\r\n')
    expect(rows('hidden')[0]!.endsWith(',signal,signal_unit')).toBe(true)
    const shown = rows('shown')
    expect(shown[0]!.endsWith(',signal_unit,corrected,drift_correction')).toBe(true)
    const corrected = quadratSeries(hub.reader, hub.keeper.timelines, wish)[0]!.corrected!
    for (const [minute, row] of shown.slice(1).entries()) {
      const cells = row.split(',')
      expect(Number(cells.at(-2))).toBeCloseTo(corrected[minute]!, 6)
      expect(Number(cells.at(-1))).toBeCloseTo(corrected[minute]! - Number(cells[6]), 3)
    }
    hub.close()
  })
  test('taking the correction away leaves the identical values', () => {
    const hub = filledHub()
    hub.keeper.save(drifted(), 'drift')
    hub.keeper.change('example', 'no drift', (survey) =>
      setDrift(survey, { probe: 'TEMP-1', calibration: 'temp-cal-1', checks: [] }),
    )
    const [series] = quadratSeries(hub.reader, hub.keeper.timelines, wish)
    expect([series!.mean, series!.corrected]).toEqual([[9.5, 10.5, 11.5, 12.5, 13.5, 14.5], null])
    hub.close()
  })
  test('a correction by a check that is not there, or was before the calibration, is refused with its path', () => {
    const hub = filledHub()
    const early = addCheck(exampleSurvey(), check({ at: '2026-06-12T06:00:00Z' }))
    for (const checks of [['none'], ['check-1']])
      expect(() =>
        hub.keeper.save(setDrift(early, { probe: 'TEMP-1', calibration: 'temp-cal-1', checks }), 'x'),
      ).toThrow(/driftCorrections\[0\]\.checks\[0\]/)
    hub.close()
  })
})
