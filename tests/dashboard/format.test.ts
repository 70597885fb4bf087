import { describe, expect, it } from 'vitest'
import {
  countText,
  decimalsFor,
  digitsText,
  expandedText,
  metresText,
  numberText,
  signalText,
  unitText,
  valueText,
} from '../../dashboard/format.ts'

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ')

describe('numberText', () => {
  it('sets thousands apart from ten thousand on', () => {
    expect(plain(numberText(9230, 0))).toBe('9230')
    expect(plain(numberText(19_100, 0))).toBe('19 100')
    expect(plain(numberText(1_234_567.5, 1))).toBe('1 234 567.5')
  })
  it('writes a true minus sign, and none before a zero', () => {
    expect(numberText(-2.5, 1)).toBe('−2.5')
    expect(numberText(-0.04, 1)).toBe('0.0')
    expect(numberText(-0, 0)).toBe('0')
  })
})

describe('units', () => {
  it('are written as people write them', () => {
    expect(unitText('Cel')).toBe('°C')
    expect(unitText('/')).toBe('%')
    expect(unitText('m/s')).toBe('m/s')
    expect(unitText('lx')).toBe('lx')
    expect(unitText('count')).toBe('counts')
    expect(unitText(null)).toBe('')
    expect(unitText('hPa')).toBe('hPa')
  })
  it('stand after the number, but pH before it', () => {
    expect(plain(valueText('soil_ph', 'pH', 5.5666, 0.011))).toBe('pH 5.57')
    expect(plain(valueText('soil_temperature', 'Cel', 14.495, 0.289))).toBe('14.5 °C')
    expect(plain(valueText('wind_speed', 'm/s', 2.4845, null))).toBe('2.5 m/s')
  })
  it('turn a ratio into a percentage', () => {
    expect(plain(valueText('soil_moisture', '/', 0.4576271, null))).toBe('45.8 %')
  })
})

describe('digits', () => {
  it('follow the uncertainty: its first digit, two when it begins with 1', () => {
    expect(decimalsFor('soil_ph', 5.5, 0.2)).toBe(1)
    expect(decimalsFor('soil_ph', 5.5, 0.11)).toBe(2)
    expect(decimalsFor('soil_temperature', 14.5, 0.29)).toBe(1)
    expect(decimalsFor('soil_moisture', 45, 4)).toBe(0)
  })
  it('never exceed what the quantity bears', () => {
    expect(decimalsFor('soil_ph', 5.5, 0.0012)).toBe(2)
    expect(decimalsFor('illuminance', 500, 0.3)).toBe(0)
  })
  it('of light are three figures, and whole below a hundred', () => {
    expect(plain(digitsText('illuminance', 'lx', 22_056.83, null))).toBe('22 100')
    expect(digitsText('illuminance', 'lx', 894.8, null)).toBe('895')
    expect(digitsText('illuminance', 'lx', 4.4, null)).toBe('4')
    expect(digitsText('illuminance', 'lx', 0, null)).toBe('0')
  })
  it('of light follow a large uncertainty into tens and hundreds', () => {
    expect(plain(digitsText('illuminance', 'lx', 22_056, 400))).toBe('22 100')
  })
})

describe('expandedText', () => {
  it('is two standard uncertainties, with the digits of the value', () => {
    expect(plain(expandedText('soil_ph', 'pH', 0.011))).toBe('± 0.02')
    expect(plain(expandedText('soil_temperature', 'Cel', 0.289))).toBe('± 0.6 °C')
    expect(plain(expandedText('soil_moisture', '/', 0.04))).toBe('± 8 %')
  })
  it('never claims zero', () => {
    expect(plain(expandedText('soil_ph', 'pH', 0.0011))).toBe('± 0.002')
  })
})

describe('signals and counts', () => {
  it('show a signal with the digits it came with', () => {
    expect(plain(signalText(59.8, 'mV'))).toBe('59.8 mV')
    expect(plain(signalText(24_970, 'count'))).toBe('24 970 counts')
    expect(plain(signalText(0.1 + 0.2, 'V'))).toBe('0.3000 V')
  })
  it('count in singular and plural', () => {
    expect(countText(1, 'quadrat')).toBe('1 quadrat')
    expect(countText(0, 'quadrat')).toBe('0 quadrats')
  })
  it('write metres without needless zeros', () => {
    expect(plain(metresText(6.5))).toBe('6.5 m')
    expect(plain(metresText(20))).toBe('20 m')
  })
})
