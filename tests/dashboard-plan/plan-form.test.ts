import { describe, expect, it } from 'vitest'
import { formOfSurvey } from '../../dashboard/plan/form/form-of-survey.ts'
import {
  freshPlan,
  freshPlot,
  freshRule,
  freshTape,
  freshWanted,
  layOut,
  nextName,
  type PlanForm,
} from '../../dashboard/plan/form/plan-form.ts'
import { readPlanForm } from '../../dashboard/plan/form/read-plan-form.ts'
import { newSurvey, surveyIdFor } from '../../dashboard/plan/form/survey-id.ts'
import { placeWords } from '../../dashboard/plan/place-words.ts'
import { readNumber, readNumbers } from '../../dashboard/read-number.ts'
import { PlanRule } from '../../hub/contract/plan.ts'
import { SurveyFile } from '../../hub/contract/survey.ts'

const filled: PlanForm = {
  ...freshPlan('Europe/Vienna', '2026-06-12', 7),
  title: 'Wood edge, June',
  siteName: 'Hollow lane',
  latitude: '48,2',
  longitude: '16.37',
  transects: [
    {
      ...freshTape('T1'),
      bearingDegrees: '155',
      zones: [
        { name: 'shade', fromMetres: '0', toMetres: '8' },
        { name: 'open', fromMetres: '8', toMetres: '20' },
      ],
    },
  ],
}
const faultsOf = (part: Partial<PlanForm>) => Object.keys(readPlanForm({ ...filled, ...part }).faults)
const tape = (part: object) => ({ transects: [{ ...filled.transects[0]!, ...part }] })
const rule = (name: PlanRule['rule'], part: object = {}) => ({ plan: [{ ...freshRule(name, 7), ...part }] })

describe('readPlanForm', () => {
  it('reads a filled form without faults, into a survey that the hub’s schema accepts unchanged', () => {
    const { parts, faults } = readPlanForm(filled)
    expect(faults).toEqual({})
    const survey = newSurvey({ ...parts, quadrats: [] }, surveyIdFor(parts.title, []))
    expect(SurveyFile.parse(survey)).toEqual(survey)
    expect(survey.id).toBe('wood-edge-june')
    expect(survey.site.latitude).toBe(48.2)
    expect(survey.plan).toEqual([
      PlanRule.parse({ rule: 'along', transect: 'T1', firstMetres: 1, everyMetres: 2, gridDivisions: 10 }),
    ])
  })
  it('leaves out what was left empty', () => {
    const { parts } = readPlanForm({ ...filled, latitude: '', longitude: '', timeZone: '', from: '' })
    const survey = newSurvey({ ...parts, quadrats: [] }, 'x')
    expect(survey.site).toEqual({ name: 'Hollow lane' })
    expect(survey).not.toHaveProperty('plots')
    expect(survey).not.toHaveProperty('from')
  })
  it('reads every rule into one the schema takes', () => {
    for (const name of ['along', 'belt', 'random', 'stratified', 'grid'] as const) {
      const { parts, faults } = readPlanForm({ ...filled, plots: [freshPlot('P1')], ...rule(name) })
      expect(faults).toEqual({})
      expect(PlanRule.parse(parts.plan![0])).toEqual(parts.plan![0])
    }
  })
  it('names the field that is wrong', () => {
    expect(faultsOf({ title: ' ', siteName: '' })).toEqual(['title', 'site.name'])
    expect(faultsOf({ timeZone: 'Here' })).toEqual(['site.timeZone'])
    expect(faultsOf({ latitude: '91' })).toEqual(['site.latitude'])
    expect(faultsOf({ to: '2026-06-11' })).toEqual(['to'])
    expect(faultsOf({ to: '2026-06-12' })).toEqual([])
    expect(faultsOf(tape({ lengthMetres: 'long' }))).toEqual(['transects[0].lengthMetres'])
    expect(faultsOf(tape({ markSpacingMetres: '30' }))).toEqual(['transects[0].markSpacingMetres'])
    expect(faultsOf(tape({ bearingDegrees: '361' }))).toEqual(['transects[0].bearingDegrees'])
    expect(faultsOf(tape({ bearingDegrees: '360' }))).toEqual([])
    expect(faultsOf({ plots: [{ ...freshPlot('P1'), widthMetres: '0' }] })).toEqual(['plots[0].widthMetres'])
    expect(faultsOf(rule('along', { everyMetres: '0' }))).toEqual(['plan[0].everyMetres'])
    expect(faultsOf(rule('along', { gridDivisions: '2.5' }))).toEqual(['plan[0].gridDivisions'])
    expect(faultsOf(rule('random', { count: '0' }))).toEqual(['plan[0].count'])
    expect(faultsOf(rule('random', { seed: 'x' }))).toEqual(['plan[0].seed'])
    expect(faultsOf({ groups: [{ label: '', quadrats: [] }] })).toEqual(['groups[0].label'])
    expect(faultsOf({ wanted: [{ ...freshWanted('Soil pH'), replicates: '0' }] })).toEqual([
      'wanted[0].quantity',
      'wanted[0].replicates',
    ])
  })
  it('says in words that a distance is negative', () => {
    expect(readPlanForm({ ...filled, ...rule('along', { firstMetres: '-1' }) }).faults).toEqual({
      'plan[0].firstMetres': 'Distances count from the zero mark or the corner: none below 0.',
    })
  })
})

describe('formOfSurvey', () => {
  it('writes a kept survey as it would have been typed, and reads it back unchanged', () => {
    const { parts } = readPlanForm({
      ...filled,
      plots: [freshPlot('P1')],
      plan: [
        { ...freshRule('random', 5), rejected: [{ xMetres: 1, yMetres: 2, reason: 'path' }] },
        { ...freshRule('belt', 5), prefix: 'B' },
      ],
      groups: [{ label: 'G1', quadrats: [] }],
      wanted: [{ ...freshWanted('soil_ph'), way: 'direct', depthCentimetres: '5' }],
    })
    const survey = newSurvey({ ...parts, quadrats: [] }, 'x')
    const again = readPlanForm(formOfSurvey(SurveyFile.parse(survey)))
    expect(again.faults).toEqual({})
    expect(newSurvey({ ...again.parts, quadrats: [] }, 'x')).toEqual(survey)
  })
})

describe('a new plan', () => {
  it('begins with one tape or one plot and a rule for it', () => {
    expect(layOut('tape', 1)).toMatchObject({
      transects: [{ id: 'T1' }],
      plots: [],
      plan: [{ rule: 'along' }],
    })
    expect(layOut('plot', 1)).toMatchObject({
      transects: [],
      plots: [{ id: 'P1' }],
      plan: [{ rule: 'random' }],
    })
  })
  it('takes the next free name', () => {
    expect(nextName('T', ['T1', 'T3'])).toBe('T2')
    expect(nextName('G', [])).toBe('G1')
  })
})

describe('readNumber and readNumbers', () => {
  it('read a decimal comma and refuse words', () => {
    expect(readNumber('0,5')).toBe(0.5)
    expect(readNumber('two')).toBeNull()
    expect(readNumber('')).toBeNull()
    expect(readNumber('1e3')).toBeNull()
  })
  it('take lists with any separator, and a decimal comma within them', () => {
    expect(readNumbers('6.5; 1, 4')).toEqual([6.5, 1, 4])
    expect(readNumbers('0,5 1,5')).toEqual([0.5, 1.5])
    expect(readNumbers('1 x')).toEqual([1, null])
    expect(readNumbers(' ')).toEqual([])
  })
})

describe('surveyIdFor', () => {
  it('never takes a name in use, and always finds one', () => {
    expect(surveyIdFor('Wood edge', ['wood-edge', 'wood-edge-2'])).toBe('wood-edge-3')
    expect(surveyIdFor('Käferwiese', [])).toBe('kaferwiese')
    expect(surveyIdFor('草原', [])).toBe('survey')
  })
})

describe('placeWords', () => {
  it('says where a fault is in words', () => {
    expect(placeWords('plan[0].count', [])).toBe('Rule 1, how many')
    expect(placeWords('transects[1].zones[0]', [])).toBe('Tape 2, zone 1')
    expect(placeWords('site.name', [])).toBe('Site, name')
    expect(placeWords('title', [])).toBe('Title')
    expect(
      placeWords('quadrats[0].distanceMetres', [
        { label: 'Q7', transect: 'T1', distanceMetres: 1, sideMetres: 0.5, gridDivisions: 10 },
      ]),
    ).toBe('Q7')
  })
})
