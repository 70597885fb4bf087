import { describe, expect, test } from 'vitest'
import { placeProbe } from '../../../hub/survey/change-survey.ts'
import { readSurveyFile } from '../../../hub/survey/read-survey-file.ts'
import { changedSpans, Timelines } from '../../../hub/survey/timeline.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'

type Draft = ReturnType<typeof exampleSurvey>

describe('a wrong survey file names each fault with its path', () => {
  const wrong: [string, (draft: Draft) => unknown, string][] = [
    ['an unknown quadrat', (s) => (s.placements[0]!.quadrat = 'Q9'), 'placements[0].quadrat'],
    ['an unknown probe', (s) => (s.placements[1]!.probe = 'NO-1'), 'placements[1].probe'],
    ['an unknown transect', (s) => (s.quadrats[1]!.transect = 'T9'), 'quadrats[1].transect'],
    ['a quadrat past the end', (s) => (s.quadrats[1]!.distanceMetres = 20.5), 'quadrats[1].distanceMetres'],
    ['a negative distance', (s) => (s.quadrats[0]!.distanceMetres = -1), 'quadrats[0].distanceMetres'],
    ['a label used twice', (s) => (s.quadrats[1]!.label = 'Q1'), 'quadrats[1]'],
    ['an end before its start', (s) => (s.placements[0]!.to = '2026-06-12T07:00:00Z'), 'placements[0].to'],
    ['a time without a zone', (s) => (s.placements[0]!.from = '2026-06-12T08:00:00'), 'placements[0].from'],
    ['two probes on one channel', (s) => (s.probes[1]!.channel = 'ph'), 'probes[1].channel'],
    ['a calibration of no probe', (s) => (s.calibrations[0]!.probe = 'X'), 'calibrations[0].probe'],
    [
      'an unknown kind of curve',
      (s) => Object.assign(s.calibrations[0]!.recipe, { kind: 'magic' }),
      'calibrations[0].recipe.kind',
    ],
    [
      'both buffers the same',
      (s) => {
        const point = { bufferSet: 'technical', buffer: '7', temperatureCelsius: 15, millivolt: 6 }
        s.calibrations[0]!.recipe = { kind: 'ph-electrode', points: [point, { ...point, millivolt: 7 }] }
      },
      'calibrations[0].recipe',
    ],
    ['a zone past the end', (s) => (s.transects[0]!.zones[0]!.toMetres = 21), 'transects[0].zones[0]'],
    [
      'a soil temperature without its depth',
      (s) => (s.probes[1]!.method = {}),
      'probes[1].method.depthCentimetres',
    ],
    [
      'a pH calibration on a thermometer',
      (s) => (s.calibrations[1]!.recipe = s.calibrations[0]!.recipe),
      'calibrations[1].recipe.kind',
    ],
    [
      'relative wetness and water content on one probe',
      (s) => {
        s.probes[0]!.quantity = 'soil_moisture'
        s.calibrations[0]!.recipe = { kind: 'wetness-span', drySignal: 820, wetSignal: 410 }
        s.calibrations.push({ ...s.calibrations[0]!, id: 'theta', recipe: { kind: 'permittivity' } })
      },
      'calibrations[3].recipe',
    ],
    ['no time zone', (s) => (s.site.timeZone = 'Wood/Edge'), 'site.timeZone'],
    ['dates the wrong way round', (s) => (s.to = '2026-06-01'), 'to'],
  ]
  for (const [what, spoil, path] of wrong)
    test(what, () => {
      const draft = exampleSurvey()
      spoil(draft)
      const { survey, faults } = readSurveyFile(draft)
      expect(survey).toBeNull()
      expect(faults.map((fault) => fault.path)).toContain(path)
    })
  test('an unknown field is refused, never ignored', () => {
    expect(readSurveyFile({ ...exampleSurvey(), quadrates: [] }).survey).toBeNull()
  })
  test('every fault is named, not only the first', () => {
    const draft = exampleSurvey()
    draft.placements[0]!.quadrat = 'Q8'
    draft.placements[1]!.quadrat = 'Q9'
    expect(readSurveyFile(draft).faults).toHaveLength(2)
  })
  test('what is not a survey at all is refused', () => {
    for (const file of [null, 1, 'x', [], {}]) expect(readSurveyFile(file).survey).toBeNull()
  })
  test('a file that is in order comes out as it went in', () => {
    expect(readSurveyFile(exampleSurvey()).survey).toEqual(exampleSurvey())
  })
})

describe('what a channel means, by time', () => {
  const at = (survey: Draft, timeMs: number) => new Timelines([survey]).at('sedge-1', 'ph', timeMs)
  test('before its placement a probe is at no quadrat; from that moment on it is', () => {
    const eight = nineOClock - 3_600_000
    expect(at(exampleSurvey(), eight - 1)?.quadrat).toBeNull()
    expect(at(exampleSurvey(), eight)?.quadrat?.label).toBe('Q1')
  })
  test('a calibration is valid from its moment until the next one', () => {
    const survey = exampleSurvey()
    survey.calibrations.push({
      ...survey.calibrations[0]!,
      id: 'ph-cal-2',
      validFrom: '2026-06-12T09:00:00Z',
    })
    expect(at(survey, nineOClock - 1)?.calibration?.id).toBe('ph-cal-1')
    expect(at(survey, nineOClock)?.calibration?.id).toBe('ph-cal-2')
    expect(at(survey, nineOClock - 7_200_001)?.calibration).toBeNull()
  })
  test('a calibration that fails never comes into force: the one before stays', () => {
    const survey = exampleSurvey()
    survey.calibrations.push({
      ...survey.calibrations[0]!,
      id: 'swapped',
      validFrom: '2026-06-12T08:30:00Z',
      recipe: {
        kind: 'ph-electrode',
        points: [
          { ph: 7, temperatureCelsius: 15, millivolt: 176 },
          { ph: 4, temperatureCelsius: 15, millivolt: 6 },
        ],
      },
    })
    expect(at(survey, nineOClock)?.calibration?.id).toBe('ph-cal-1')
  })
  test('moving a probe ends where it was; lifting it leaves it in transit', () => {
    const moved = placeProbe(exampleSurvey(), { probe: 'PH-1', quadrat: 'Q2', from: '2026-06-12T09:00:00Z' })
    const lifted = placeProbe(moved, { probe: 'PH-1', quadrat: null, from: '2026-06-12T10:00:00Z' })
    expect(readSurveyFile(lifted).faults).toEqual([])
    const where = [nineOClock - 1, nineOClock, nineOClock + 3_600_000].map(
      (time) => at(lifted, time)?.quadrat?.label,
    )
    expect(where).toEqual(['Q1', 'Q2', undefined])
  })
  test('a placement dated back ends where the next one begins: those made for later stay', () => {
    const at = (hour: number) => `2026-06-12T${String(hour).padStart(2, '0')}:00:00Z`
    const later = placeProbe(exampleSurvey(), { probe: 'PH-1', quadrat: 'Q2', from: at(12) })
    const between = placeProbe(later, { probe: 'PH-1', quadrat: null, from: at(10) })
    const again = placeProbe(between, { probe: 'PH-1', quadrat: 'Q2', from: at(8) })
    const where = (survey: Draft, hour: number) =>
      new Timelines([survey]).at('sedge-1', 'ph', Date.parse(at(hour)))?.quadrat?.label ?? null
    expect([9, 11, 13].map((hour) => where(between, hour))).toEqual(['Q1', null, 'Q2'])
    expect([9, 11, 13].map((hour) => where(again, hour))).toEqual(['Q2', null, 'Q2'])
  })
  test('a probe that is on a channel already cannot be taken to another by its name', () => {
    const probe = { ...exampleSurvey().probes[0]!, board: 'fern-2', channel: 'c1' }
    expect(() => placeProbe(exampleSurvey(), { probe, quadrat: 'Q2', from: '2026-06-12T12:00:00Z' })).toThrow(
      /PH-1" is on sedge-1\/ph already/,
    )
  })
  test('a probe plugged into the channel later has only the readings since then', () => {
    const survey = exampleSurvey()
    survey.probes[0]!.connectedFrom = '2026-06-12T09:00:00Z'
    expect(at(survey, nineOClock - 1)).toBeNull()
    expect(at(survey, nineOClock)?.probe.id).toBe('PH-1')
  })
  test('of two surveys that know a probe, the one that has it placed at that time has its readings', () => {
    const other = { ...exampleSurvey(), id: 'another' }
    other.placements = [{ probe: 'PH-1', quadrat: 'Q2', from: '2026-07-01T00:00:00Z' }]
    const first = exampleSurvey()
    first.placements[0]!.to = '2026-06-12T12:00:00Z'
    const both = new Timelines([other, first])
    expect(both.at('sedge-1', 'ph', nineOClock)?.survey.id).toBe('example')
    expect(both.at('sedge-1', 'ph', Date.UTC(2026, 6, 2))?.survey.id).toBe('another')
  })
  test('only what changes values is recomputed: not a move, but a new calibration from its date on', () => {
    const before = new Timelines([exampleSurvey()]).of('sedge-1', 'ph')
    const moved = placeProbe(exampleSurvey(), { probe: 'PH-1', quadrat: 'Q2', from: '2026-06-12T09:00:00Z' })
    expect(changedSpans(before, new Timelines([moved]).of('sedge-1', 'ph'))).toEqual([])
    const survey = exampleSurvey()
    survey.calibrations.push({
      ...survey.calibrations[0]!,
      id: 'ph-cal-2',
      validFrom: '2026-06-12T09:00:00Z',
    })
    expect(changedSpans(before, new Timelines([survey]).of('sedge-1', 'ph'))).toEqual([
      { fromMs: nineOClock, toMs: Infinity },
    ])
  })
})
