import { describe, expect, it } from 'vitest'
import { quadratDistances, readNumber } from '../../dashboard/quadrat-distances.ts'
import { setUpFaults } from '../../dashboard/set-up-faults.ts'
import { freshSetUp, surveyIdFor, surveyOf } from '../../dashboard/set-up-form.ts'
import { SurveyFile } from '../../hub/contract/survey.ts'

const filled = {
  ...freshSetUp('Europe/Vienna', '2026-06-12'),
  title: 'Wood edge, June',
  siteName: 'Hollow lane',
  latitude: '48,2',
  longitude: '16.37',
  bearing: '155',
  zones: [
    { name: 'shade', from: '0', to: '8' },
    { name: 'open', from: '8', to: '20' },
  ],
}

describe('surveyOf', () => {
  it('makes a file that the hub’s own schema accepts unchanged', () => {
    expect(setUpFaults(filled)).toEqual({})
    const survey = surveyOf(filled, surveyIdFor(filled.title, []))
    expect(SurveyFile.parse(survey)).toEqual(survey)
    expect(survey.id).toBe('wood-edge-june')
    expect(survey.site.latitude).toBe(48.2)
  })
  it('lays ten quadrats on 20 m from 1 m on, one every 2 m', () => {
    const survey = surveyOf(filled, 'x')
    expect(survey.quadrats).toHaveLength(10)
    expect(survey.quadrats[0]).toEqual({
      label: 'Q1',
      transect: 'T1',
      distanceMetres: 1,
      sideMetres: 0.5,
      gridDivisions: 10,
    })
    expect(survey.quadrats.at(-1)?.distanceMetres).toBe(19)
  })
  it('leaves out what was left empty', () => {
    const survey = surveyOf(
      { ...filled, latitude: '', longitude: '', bearing: '', date: '', timeZone: '' },
      'x',
    )
    expect(survey.site).toEqual({ name: 'Hollow lane' })
    expect(survey.transects[0]).not.toHaveProperty('bearingDegrees')
    expect(SurveyFile.safeParse(survey).success).toBe(true)
  })
})

describe('quadratDistances', () => {
  it('takes a list in any order and with any separator', () => {
    expect(quadratDistances({ ...filled, layout: 'list', distances: '6.5; 1, 4' })).toEqual([1, 4, 6.5])
  })
  it('reaches the end of the tape exactly', () => {
    expect(quadratDistances({ ...filled, lengthMetres: '1', firstAt: '0', everyMetres: '0.1' })).toHaveLength(
      11,
    )
  })
  it('is empty rather than endless when the step is nothing', () => {
    expect(quadratDistances({ ...filled, everyMetres: '0' })).toEqual([])
    expect(quadratDistances({ ...filled, everyMetres: '0.00001', firstAt: '0' }).length).toBeLessThanOrEqual(
      500,
    )
  })
  it('reads a decimal comma and refuses words', () => {
    expect(readNumber('0,5')).toBe(0.5)
    expect(readNumber('two')).toBeNull()
    expect(readNumber('')).toBeNull()
    expect(readNumber('1e3')).toBeNull()
  })
})

describe('setUpFaults', () => {
  const faultOf = (change: Partial<typeof filled>) => Object.keys(setUpFaults({ ...filled, ...change }))
  it('names the field that is wrong', () => {
    expect(faultOf({ title: ' ' })).toEqual(['title'])
    expect(faultOf({ lengthMetres: 'long' })).toContain('lengthMetres')
    expect(faultOf({ spacing: '30' })).toEqual(['spacing'])
    expect(faultOf({ bearing: '361' })).toEqual(['bearing'])
    expect(faultOf({ bearing: '360' })).toEqual([])
    expect(faultOf({ timeZone: 'Here' })).toEqual(['timeZone'])
    expect(faultOf({ gridDivisions: '2.5' })).toEqual(['gridDivisions'])
  })
  it('keeps quadrats on the tape', () => {
    expect(faultOf({ layout: 'list', distances: '1 20' })).toEqual([])
    expect(faultOf({ layout: 'list', distances: '1 20.5' })).toEqual(['distances'])
    expect(faultOf({ layout: 'list', distances: '1 1' })).toEqual(['distances'])
    expect(faultOf({ layout: 'list', distances: '' })).toEqual(['distances'])
    expect(faultOf({ firstAt: '21' })).toEqual(['firstAt'])
  })
  it('keeps zones in order and on the tape', () => {
    expect(faultOf({ zones: [{ name: 'shade', from: '5', to: '5' }] })).toEqual(['zone 0'])
    expect(faultOf({ zones: [{ name: 'shade', from: '5', to: '25' }] })).toEqual(['zone 0'])
  })
})

describe('surveyIdFor', () => {
  it('never takes a name in use, and always finds one', () => {
    expect(surveyIdFor('Wood edge', ['wood-edge', 'wood-edge-2'])).toBe('wood-edge-3')
    expect(surveyIdFor('Käferwiese', [])).toBe('kaferwiese')
    expect(surveyIdFor('草原', [])).toBe('survey')
  })
})
