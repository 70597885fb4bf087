import { describe, expect, test } from 'vitest'
import { BUFFER_SETS, bufferPh, isRefusal, nernstSlope } from '../../calibration/index.ts'
import { readTable } from '../../calibration/references/temperature-table.ts'
import { expectRefusal, printed } from './expect-fitted.ts'
import { referenceRows } from './reference-files.ts'

/** Names in the reference table, and as asked for in a recipe. */
const SETS: Record<string, string> = {
  'NIST/IUPAC': 'nist',
  technical: 'technical-3dp',
  'technical-2dp': 'technical',
  'JIS Z 8802:2011': 'jis',
  'Hetzer1977-eq': 'hetzer-1977',
  'DIN 19266': 'din-19266',
}
const BUFFERS: Record<string, string> = {
  'tetroxalate_0.05': 'tetroxalate',
  'citrate_0.05': 'citrate',
  'phthalate_0.05': 'phthalate',
  'phosphate_1:1': 'phosphate',
  'phosphate_1:3.5': 'phosphate-1-3.5',
  'borax_0.01': 'borax',
  'carbonate_0.025': 'carbonate',
  calcium_hydroxide_sat: 'calcium-hydroxide',
  '4.00 phthalate': '4',
  '7.00 phosphate': '7',
  '"7.00" phosphate': '7',
  '10.01 carbonate': '10',
}

function ph(set: string, buffer: string, celsius: number): number {
  const found = bufferPh(set, buffer, celsius)
  if (isRefusal(found)) throw new Error(found.message)
  return found.ph
}

describe('pH of buffers', () => {
  test('every published row is returned as printed', () => {
    // ph-buffers.csv: Buck et al. 2002 Table 2; JIS Z 8802:2011; Hetzer 1977; technical tables; DIN 19266
    const rows = referenceRows('ph-buffers.csv')
    expect(rows.length).toBeGreaterThan(120)
    for (const row of rows) {
      const found = ph(SETS[row['set']!]!, BUFFERS[row['buffer']!]!, Number(row['temp_C']))
      expect(found, `${row['set']} ${row['buffer']} ${row['temp_C']}`).toBeCloseTo(Number(row['pH']), 9)
    }
  })

  test('phthalate at 17 °C lies between its rows at 15 and 20 °C', () => {
    expect(ph('nist', 'phthalate', 17)).toBeGreaterThan(3.998)
    expect(ph('nist', 'phthalate', 17)).toBeLessThan(4.0)
  })

  test('each primary row left out is found again from its neighbours 10 °C apart to 0.002', () => {
    for (const buffer of BUFFER_SETS.find((each) => each.set === 'nist')!.buffers) {
      const everyFive = buffer.rows.filter((row) => row.celsius % 5 === 0)
      for (let k = 1; k < everyFive.length - 1; k++) {
        const without = everyFive.filter((_, index) => index !== k)
        const found = readTable(without, everyFive[k]!.celsius)
        // the end parabolas are one-sided and looser; saturated calcium hydroxide falls ten times faster
        const tolerance = buffer.name === 'calcium-hydroxide' ? 0.008 : k === 1 ? 0.005 : 0.002
        expect(
          Math.abs(found! - everyFive[k]!.figure),
          `${buffer.name} ${everyFive[k]!.celsius}`,
        ).toBeLessThan(tolerance)
      }
    }
  })

  test('reading between rows has no step at a row', () => {
    for (const celsius of [10, 15, 25, 30, 40]) {
      expect(ph('nist', 'borax', celsius - 1e-7)).toBeCloseTo(ph('nist', 'borax', celsius + 1e-7), 6)
    }
  })

  test('a nominal buffer may be written 7, 7.0 or 7.00', () => {
    expect(ph('technical', '7.00', 15)).toBe(7.04)
    expect(ph('technical', '7.0', 15)).toBe(7.04)
    expect(ph('technical', '7', 15)).toBe(7.04)
  })

  test('the table ends where it ends: below, at, at, above', () => {
    expectRefusal(bufferPh('nist', 'phthalate', -0.1), 'E_TEMPERATURE_RANGE')
    expect(ph('nist', 'phthalate', 0)).toBe(4.0)
    expect(ph('nist', 'phthalate', 50)).toBe(4.05)
    expectRefusal(bufferPh('nist', 'phthalate', 50.1), 'E_TEMPERATURE_RANGE')
  })

  test('an unknown set or buffer is named, and so are the known ones', () => {
    expect(expectRefusal(bufferPh('acme', '7', 20), 'E_BUFFER_UNKNOWN').message).toContain('technical')
    expect(expectRefusal(bufferPh('technical', '9', 20), 'E_BUFFER_UNKNOWN').message).toContain('10')
    expectRefusal(bufferPh('technical', '', 20), 'E_BUFFER_UNKNOWN')
    expectRefusal(bufferPh('technical', '7', Number.NaN), 'E_NOT_FINITE')
  })
})

test('the theoretical slope is ln(10)·R·T/F', () => {
  // CODATA 2018 R and F; JIS Z 8802 table 1 truncates to two decimals
  for (const row of referenceRows('ph-nernst-slope.csv')) {
    const { number, tolerance } = printed(row['mV_per_pH_CODATA']!)
    expect(Math.abs(nernstSlope(Number(row['temp_C'])) - number)).toBeLessThanOrEqual(tolerance)
    expect(
      Math.abs(nernstSlope(Number(row['temp_C'])) - Number(row['mV_per_pH_JIS_Z8802_table1'])),
    ).toBeLessThan(0.011)
  }
})
