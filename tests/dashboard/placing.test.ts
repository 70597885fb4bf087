import { describe, expect, it } from 'vitest'
import {
  calibrationOf,
  freeProbeName,
  freshPlaceForm,
  likelyQuantity,
  placementFrom,
} from '../../dashboard/place-form.ts'
import { fieldQuantities } from '../../dashboard/quantities.ts'
import { emptyFields, initialEntries, kindsFor, recipeKinds } from '../../dashboard/recipe-form.ts'
import { isLate, standingOf } from '../../dashboard/standing.ts'
import { AddCalibration, PlaceProbe } from '../../hub/contract/changes.ts'
import { knownQuantities } from '../../hub/contract/quantity-facts.ts'

import type { ChannelNow } from '../../hub/contract/reading.ts'
import { SurveyFile } from '../../hub/contract/survey.ts'

const survey = SurveyFile.parse({
  tussockSurvey: 1,
  id: 'a',
  title: 'a',
  site: { name: 'b' },
  transects: [{ id: 'T1', lengthMetres: 20 }],
  quadrats: [{ label: 'Q1', transect: 'T1', distanceMetres: 1 }],
})
const channel: ChannelNow = {
  id: 1,
  board: 'sedge-1',
  channel: 'ph',
  signalUnit: 'mV',
  survey: null,
  probe: null,
  quantity: null,
  method: null,
  quadrat: null,
  transect: null,
  distanceMetres: null,
  calibration: null,
  verdict: null,
  valueUnit: null,
  firstMs: 3_600_000,
  expectedIntervalSeconds: 2,
  latest: [1024, 1, 60_000, 59.8, null, null, 2],
  why: [],
}

describe('placing a channel', () => {
  it('guesses what it measures from its name and unit', () => {
    expect(likelyQuantity('ph', 'mV')).toBe('soil_ph')
    expect(likelyQuantity('moisture', 'count')).toBe('soil_moisture')
    expect(likelyQuantity('light', 'count')).toBe('illuminance')
    expect(likelyQuantity('temperature', 'Cel')).toBe('soil_temperature')
    expect(likelyQuantity('wind', 'Hz')).toBe('wind_speed')
    expect(likelyQuantity('battery', 'V')).toBe('')
  })
  it('suggests a probe name nobody has', () => {
    expect(freeProbeName('soil_ph', ['ph-1', 'ph-2'])).toBe('ph-3')
    expect(freeProbeName('leaf_wetness', [])).toBe('leaf-1')
  })
  it('asks what the hub’s schema accepts, from the channel’s first reading on', () => {
    const asked = placementFrom(freshPlaceForm(channel, survey, ['ph-1']), channel, 9_000_000)
    expect(PlaceProbe.parse(asked)).toEqual(asked)
    expect(asked.from).toBe('1970-01-01T01:00:00.000Z')
    expect(asked.quadrat).toBe('Q1')
    expect(asked.probe).toMatchObject({ id: 'ph-2', quantity: 'soil_ph' })
  })
})

describe('calibrations taken down', () => {
  it.each(recipeKinds.map((kind) => [kind.kind, kind] as const))(
    '%s makes a calibration the hub accepts',
    (_, kind) => {
      const entered = Object.fromEntries(kind.fields.map(({ name, initial }) => [name, initial ?? '12,5']))
      expect(emptyFields(kind, entered)).toEqual([])
      const made = calibrationOf('ph-1', survey, '2026-06-12T09:00:00.000Z', kind.recipe(entered, 'pH'))
      expect(AddCalibration.parse(made)).toEqual(made)
      expect(JSON.stringify(made.recipe)).not.toContain('null')
    },
  )
  it('name the numbers that are missing', () => {
    const kind = kindsFor('soil_moisture').find(({ kind }) => kind === 'wetness-span')!
    expect(emptyFields(kind, initialEntries(kind))).toEqual(['dry', 'wet'])
    expect(emptyFields(kind, { dry: '811', wet: 'x' })).toEqual(['wet'])
  })
})

describe('how a newest reading stands', () => {
  const placed: ChannelNow = {
    ...channel,
    quadrat: 'Q1',
    calibration: 'c',
    latest: [1, 1, 60_000, 5, 5, null, 1],
  }
  const flagged = (flag: 1 | 2 | 3 | 4 | 9): ChannelNow => ({
    ...placed,
    latest: [1, 1, 60_000, 5, 5, null, flag],
  })
  it('follows its flag', () => {
    expect(standingOf(flagged(1))).toBe('clean')
    expect(standingOf(flagged(2))).toBe('unchecked')
    expect(standingOf(flagged(3))).toBe('suspect')
    expect(standingOf(flagged(4))).toBe('fail')
    expect(standingOf(flagged(9))).toBe('missing')
  })
  it('is “not calibrated” without a calibration, and “no reading” without one', () => {
    expect(standingOf({ ...placed, calibration: null })).toBe('uncalibrated')
    expect(standingOf({ ...placed, latest: null })).toBe('missing')
    expect(standingOf(undefined)).toBe('missing')
  })
  it('is late after three intervals, not at three', () => {
    expect(isLate(placed, 120_000, 20)).toBe(false)
    expect(isLate(placed, 120_001, 20)).toBe(true)
    expect(isLate({ ...placed, latest: null }, 120_001, 20)).toBe(false)
  })
})

describe('quantities', () => {
  it('have words for each one the hub knows', () => {
    expect(fieldQuantities.map(({ name }) => name)).toEqual(knownQuantities.map(({ name }) => name))
  })
})
