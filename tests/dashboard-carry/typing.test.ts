import { describe, expect, test } from 'vitest'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import {
  freshTypedMeter,
  typedMeter,
  typedMeterFaults,
  unitOfMeter,
} from '../../dashboard/carry/typed-meter.ts'
import { readTyped } from '../../dashboard/carry/typed-number.ts'
import { typedUnit } from '../../dashboard/carry/typed-unit.ts'
import type { Probe } from '../../hub/contract/survey.ts'
import { SurveyFile } from '../../hub/contract/survey.ts'
import { addCalibration, placeProbe } from '../../hub/survey/change-survey.ts'
import { readSurveyFile } from '../../hub/survey/read-survey-file.ts'
import { exampleSurvey } from '../support/example-survey.ts'

const nowMs = Date.parse('2026-06-12T09:30:00Z')

describe('a number that is typed', () => {
  test('is read with a point or a comma, with spaces about it, and with a true minus', () => {
    const value = (text: string, quantity = 'soil_temperature', unit = 'Cel') => {
      const read = readTyped(text, quantity, unit)
      return read.is === 'number' ? read.value : read.is
    }
    expect(['5.92', '5,92', ' 5.92 ', '.5', '7', '+7'].map((text) => value(text))).toEqual([
      5.92, 5.92, 5.92, 0.5, 7, 7,
    ])
    expect(value('\u22121,5')).toBe(-1.5)
    expect(value('')).toBe('empty')
    expect(['5.9.2', '5,9,2', 'six', '1e3', '5 9', '0x10'].map((text) => value(text))).toEqual(
      Array(6).fill('unreadable'),
    )
  })

  test('a percentage becomes a part of 1, exactly', () => {
    expect(readTyped('35', 'soil_moisture', '/')).toEqual({ is: 'number', value: 0.35, question: null })
    expect(readTyped('28,7', 'soil_moisture', 'm3/m3')).toEqual({
      is: 'number',
      value: 0.287,
      question: null,
    })
  })

  // spans of hub/contract/quantity.ts: common practice, no source
  test.each([
    ['2.99', true],
    ['3', false],
    ['9.5', false],
    ['9.51', true],
    ['14.1', true],
  ])('soil pH %s is asked about: %s, and never refused', (text, isAsked) => {
    const read = readTyped(text, 'soil_ph', 'pH')
    expect(read).toMatchObject({ is: 'number', value: Number(text) })
    expect(read.is === 'number' && read.question !== null).toBe(isAsked)
  })

  test('the question says the span in the unit that is typed', () => {
    const read = readTyped('104', 'soil_moisture', '/')
    expect(read.is === 'number' ? read.question : null).toContain('between 0 and 100 %')
    const far = readTyped('300', 'soil_moisture', '/')
    expect(far.is === 'number' ? far.question : null).toContain('between −5 and 105 %')
    // a quantity of the class's own has no spans
    expect(readTyped('1000', 'slope_angle', 'deg')).toEqual({ is: 'number', value: 1000, question: null })
  })
})

describe('a meter that is read by eye', () => {
  const survey = SurveyFile.parse({ ...exampleSurvey(), from: '2026-06-12' })
  const form = { ...freshTypedMeter('soil_ph', ['ph-1']), accuracy: '0,1' }

  test('what its values cannot do without is asked for', () => {
    expect(typedMeterFaults(form, survey)).toEqual({})
    expect(Object.keys(typedMeterFaults({ ...form, way: ' ' }, survey))).toEqual(['way'])
    expect(Object.keys(typedMeterFaults({ ...form, probe: 'PH-1' }, survey))).toEqual(['probe'])
    expect(Object.keys(typedMeterFaults({ ...form, probe: 'two words' }, survey))).toEqual(['probe'])
    expect(Object.keys(typedMeterFaults({ ...form, quantity: '' }, survey))).toEqual(['quantity'])
    expect(Object.keys(typedMeterFaults({ ...form, accuracy: '-1', depth: 'x' }, survey))).toEqual([
      'depth',
      'accuracy',
    ])
    const temperature = { ...freshTypedMeter('soil_temperature', []), depth: '' }
    expect(Object.keys(typedMeterFaults(temperature, survey))).toEqual(['depth'])
  })

  test('becomes a carried probe, placed nowhere, whose value is its signal with the stated accuracy', () => {
    const { placing, calibration } = typedMeter(form, survey, nowMs)
    const changed = addCalibration(placeProbe(survey, placing), calibration)
    expect(readSurveyFile(changed).faults).toEqual([])
    expect(placing.quadrat).toBeNull()
    const probe = changed.probes.find(({ id }) => id === 'ph-2') as Probe
    expect(probe).toMatchObject({ board: 'by-hand', channel: 'ph-2', isTyped: true, isCarried: true })
    const fitted = fitCalibration(calibration.recipe)
    if (isRefusal(fitted)) throw new Error(fitted.message)
    const value = fitted.valueAt(6.3, {})
    // ± 0.1 as the half-width of a rectangle: 0.1/√3 = 0.0577 (JCGM 100:2008 4.3.7)
    expect(value).toMatchObject({ value: 6.3, standardUncertainty: expect.closeTo(0.0577, 4) })
    expect(Date.parse(calibration.validFrom)).toBeLessThan(Date.parse('2026-06-12T00:00:00Z'))
    expect(typedUnit(changed, probe)).toBe('pH')
  })

  test('water content and relative wetness are told apart by the way it is measured', () => {
    const wet = freshTypedMeter('soil_moisture', [])
    expect(unitOfMeter(wet)).toBe('/')
    expect(unitOfMeter({ ...wet, way: 'volumetric, own soil' })).toBe('m3/m3')
    const { calibration } = typedMeter({ ...wet, accuracy: '3' }, survey, nowMs)
    // ± 3 % is 0.03: 0.03/√3
    expect(calibration.recipe).toMatchObject({ unit: '/', standardUncertainty: expect.closeTo(0.01732, 5) })
  })
})
