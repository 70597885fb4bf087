import { expect, it } from 'vitest'
import { wordsOf } from '../../dashboard/words-of.ts'

it.each([
  ['slopeMillivoltPerPh', 'slope, mV per pH'],
  ['slopeMetresPerSecondPerHertz', 'slope, m/s per Hz'],
  ['offsetCelsius', 'offset, °C'],
  ['slopePercent', 'slope, %'],
  ['millivolt', 'mV'],
  ['ph', 'pH'],
  ['isopotentialPh', 'isopotential, pH'],
  ['bufferCount', 'buffer count'],
  ['kind', 'kind'],
])('%s is written “%s”', (name, words) => {
  expect(wordsOf(name)).toBe(words)
})
