import { expect, it } from 'vitest'
import type { Recipe } from '../../calibration/index.ts'
import { isFormulaAlone } from '../../dashboard/bench/fit/formula-alone.ts'

it('a recipe without anything measured by the class is a formula alone', () => {
  const temperature: Recipe = { kind: 'digital-temperature' }
  expect(isFormulaAlone(temperature)).toBe(true)
  expect(isFormulaAlone({ ...temperature, icePoint: [] })).toBe(true)
  expect(isFormulaAlone({ ...temperature, icePoint: [0.1, 0.2, 0.1] })).toBe(false)
  expect(isFormulaAlone({ ...temperature, secondPoint: { reading: 20.1, reference: 20 } })).toBe(false)
  const light: Recipe = { kind: 'light-counts', sensor: 'bh1750' }
  expect(isFormulaAlone(light)).toBe(true)
  expect(isFormulaAlone({ ...light, factor: 1.07 })).toBe(false)
  expect(isFormulaAlone({ kind: 'ph-electrode', points: [] })).toBe(false)
})
