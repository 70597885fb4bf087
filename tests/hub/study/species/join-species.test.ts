import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../../calibration/index.ts'
import { factorColumns } from '../../../../hub/study/species/factor-columns.ts'
import { joinSpecies } from '../../../../hub/study/species/join-species.ts'
import { joinedCsv } from '../../../../hub/study/species/joined-csv.ts'
import {
  type QuadratValue,
  statisticFor,
  summariseQuadrats,
} from '../../../../hub/study/species/quadrat-means.ts'
import { type QuadratReadings, readReadings } from '../../../../hub/study/species/read-readings.ts'
import { tableOf } from './sheet.ts'

const measured = (quadrat: string, value: number, more: Partial<QuadratValue> = {}): QuadratValue => ({
  quadrat,
  quantity: 'soil_ph',
  method: '',
  unit: 'pH',
  n: 3,
  value,
  statistic: 'median',
  uncertainty: null,
  ...more,
})

async function readingsOf(text: string, survey?: string) {
  return readReadings(new TextEncoder().encode(text), 'clean.csv', survey)
}

async function quadratsOf(text: string, survey?: string): Promise<QuadratReadings> {
  const read = await readingsOf(text, survey)
  if (isRefusal(read)) throw new Error(read.message)
  return read
}

// the columns of the download as README.md names them
const heading =
  'time,survey,transect,distance_m,quadrat,quantity,value,unit,uncertainty,flag,probe,calibration,signal,signal_unit'
const row = (quadrat: string, quantity: string, value: number | '', survey = 'wood', flag = 1) =>
  `2026-06-12T09:00:00.000Z,${survey},T1,0,${quadrat},${quantity},${value},pH,0.1,${flag},P1,C1,1,mV\r\n`

describe('readings of the hub', () => {
  test('pH and light by the median, all else by the mean, with n', async () => {
    const text = `${heading}\r\n${[5, 6, 9].map((value) => row('Q1', 'soil_ph', value)).join('')}${[10, 11, 15].map((value) => row('Q1', 'soil_temperature', value)).join('')}`
    const { values, quadrats } = await quadratsOf(text)
    expect(quadrats).toEqual(['Q1'])
    expect(values).toMatchObject([
      { quantity: 'soil_ph', n: 3, value: 6, statistic: 'median' },
      { quantity: 'soil_temperature', n: 3, value: 12, statistic: 'mean' },
    ])
    expect(['illuminance', 'relative_light', 'wind_speed'].map(statisticFor)).toEqual([
      'median',
      'median',
      'mean',
    ])
    expect(
      summariseQuadrats([5, 6].map((value) => measured('Q1', value) as QuadratValue & { value: number }))[0]!
        .value,
    ).toBe(5.5)
  })
  test('columns in another order and more of them; rows without a quadrat or a value are counted', async () => {
    const { values, notes } = await quadratsOf(
      'value,extra,quantity,quadrat\n5,x,soil_ph,Q1\n6,x,soil_ph,\n,x,soil_ph,Q2\n',
    )
    expect(values).toHaveLength(1)
    expect(notes[0]).toContain('3 rows, 1 used, 1 without a quadrat, 1 without a value')
  })
  test('what is not the clean set, or of several surveys, is refused', async () => {
    expect(await readingsOf(`${heading}\r\n${row('Q1', 'soil_ph', 5, 'wood', 4)}`)).toMatchObject({
      code: 'E_READINGS',
    })
    expect(await readingsOf('quadrat,quantity,value,reason\nQ1,soil_ph,5,spike\n')).toMatchObject({
      code: 'E_READINGS',
    })
    const two = `${heading}\r\n${row('Q1', 'soil_ph', 5)}${row('Q1', 'soil_ph', 7, 'heath')}`
    expect(await readingsOf(two)).toMatchObject({
      code: 'E_READINGS',
      message: expect.stringContaining('--survey'),
    })
    expect((await quadratsOf(two, 'heath')).values).toMatchObject([{ value: 7, n: 1 }])
    expect(await readingsOf(two, 'moor')).toMatchObject({ code: 'E_READINGS' })
    expect(await readingsOf('quadrat,colour\nQ1,red\n')).toMatchObject({ code: 'E_READINGS' })
    expect(await readingsOf('quadrat,quantity,value\n')).toMatchObject({ code: 'E_SHEET_EMPTY' })
  })
  test('unlike methods of one quantity are columns of their own, never pooled', async () => {
    const text = 'quadrat,quantity,value,way,depth_cm\nQ1,soil_ph,5,slurry 1:2.5,5\nQ1,soil_ph,6,direct,5\n'
    expect(factorColumns((await quadratsOf(text)).values).map(({ heading: name }) => name)).toEqual([
      'soil_ph_slurry_1_2_5_5_cm_deep_median',
      'soil_ph_slurry_1_2_5_5_cm_deep_n',
      'soil_ph_direct_5_cm_deep_median',
      'soil_ph_direct_5_cm_deep_n',
    ])
  })
  test('any other table: several rows of a quadrat are summarised, remarks left aside', async () => {
    const { values, notes } = await quadratsOf('Site,pH,Humus,who\nA,5,10,g1\nA,6,12,g2\nB,7,n/a,g3\n')
    expect(values.map(({ quadrat, quantity, value, n }) => [quadrat, quantity, value, n])).toEqual([
      ['A', 'pH', 5.5, 2],
      ['A', 'Humus', 11, 2],
      ['B', 'pH', 7, 1],
    ])
    expect(notes.join(' ')).toContain('left aside: who')
  })
})

describe('the joined table', () => {
  test('0 is absent, empty is not recorded, and every row is accounted for', async () => {
    const species = await tableOf('Cover,Ivy,soil_ph_n,=SUM(A1)\nQ1,20,0,\nQ2,n/a,3.5,1\nQ9,1,1,1\n', {
      blank: 'not-recorded',
    })
    const readings = {
      quadrats: ['Q1', 'Q2', 'Q3'],
      values: [measured('Q1', 5.5), measured('Q2', 6, { uncertainty: 0.1 })],
      notes: [],
    }
    const { wide, long, unmatched, explanation } = joinSpecies(readings, species)
    expect(joinedCsv(wide)).toBe(
      "quadrat,soil_ph_median,soil_ph_u,soil_ph_n,Ivy,soil_ph_n (species),'=SUM(A1),species_measure,blanks_mean\r\n" +
        'Q1,5.5,,3,20,0,,cover-percent,not-recorded\r\nQ2,6,0.1,3,,3.5,1,cover-percent,not-recorded\r\n',
    )
    expect(long.rows).toHaveLength(6)
    expect(joinedCsv(long).split('\r\n')[2]).toBe('Q1,soil_ph_n,cover-percent,0,%,0,0,C2,5.5,,3,not-recorded')
    expect(unmatched.rows).toEqual([
      ['readings', 'Q3', null, 'no species were typed for it', null],
      ['species', 'Q9', 'A4', 'no readings have this label', null],
    ])
    expect(explanation.slice(0, 3)).toEqual([
      'Readings: 3 quadrats = 2 joined + 0 awaiting confirmation + 0 typed more than once + 1 without species.',
      'Species: 3 quadrats = 2 joined + 0 awaiting confirmation + 0 typed more than once + 1 without readings.',
      'Joined: 2 quadrats × 3 taxa = 6 values: 3 present, 1 absent, 2 not recorded. Measure: percentage cover.',
    ])
  })
})
