import { describe, expect, test } from 'vitest'
import {
  cellSentence,
  percentText,
  shortCell,
  summaryOfCells,
} from '../../dashboard/field/return/cell-words.ts'
import { gapLines } from '../../dashboard/field/return/gap-lines.ts'
import type { CompletenessCell, StandingCount } from '../../hub/contract/field.ts'

const standing = (over: Partial<StandingCount> = {}): StandingCount => ({
  probe: 'TEM-1',
  board: 'sedge-1',
  isLogging: true,
  isThere: true,
  received: 45,
  expected: 50,
  completeness: 0.9,
  gaps: [],
  ...over,
})
const cell = (over: Partial<CompletenessCell> = {}): CompletenessCell => ({
  quadrat: 'Q1',
  quantity: 'soil_temperature',
  method: {},
  by: 'standing',
  state: 'complete',
  got: 1,
  needed: 1,
  standing: [standing()],
  isSteady: null,
  isCalibrated: true,
  isClockKnown: true,
  last: null,
  missing: [],
  remarks: [],
  minutes: 0,
  ...over,
})

describe('the matrix in words', () => {
  test('replicates of a carried meter, per cent of one that logs, a dash where nothing is wanted', () => {
    expect(shortCell(cell({ by: 'carried', standing: [], got: 2, needed: 3 }))).toBe('2/3')
    // by hand: 45 of 50
    expect(shortCell(cell())).toBe('90 %')
    expect(shortCell(cell({ state: 'not wanted' }))).toBe('–')
    expect(shortCell(cell({ standing: [standing({ completeness: null })] }))).toBe('logged')
  })
  test('per cent are rounded down: 99.9 is not all of it', () => {
    expect([percentText(1), percentText(0.999), percentText(0.004), percentText(0)]).toEqual([
      '100 %',
      '99 %',
      '0.4 %',
      '0 %',
    ])
  })
  test('the summary counts what is wanted only', () => {
    expect(
      summaryOfCells([
        cell(),
        cell({ state: 'partly' }),
        cell({ state: 'missing' }),
        cell({ state: 'not wanted' }),
      ]),
    ).toBe('1 of 3 cells are complete; 1 partly, 1 missing.')
    expect(summaryOfCells([cell()])).toBe('1 of 1 cell is complete.')
  })
  test('a cell says everything that stands against it', () => {
    expect(cellSentence(cell())).toBe('nothing missing')
    expect(
      cellSentence(
        cell({
          state: 'partly',
          missing: [{ kind: 'board', words: 'board sedge-1 is silent', of: 'sedge-1' }],
          isCalibrated: false,
        }),
      ),
    ).toBe('board sedge-1 is silent; calibration wanting')
  })
})

test('gaps that channels of a board share to the minute are one line, in time order', () => {
  const gap = (fromMs: number, toMs: number) => ({ gaps: [{ fromMs, toMs }] })
  const lines = gapLines([
    cell({ standing: [standing(gap(600_000, 900_000))] }),
    cell({ quantity: 'illuminance', standing: [standing(gap(601_000, 899_000 + 2000))] }),
    cell({ quadrat: 'Q2', standing: [standing({ board: 'fern-2', ...gap(60_000, 200_000) })] }),
  ])
  expect(lines).toEqual([
    { quadrat: 'Q2', board: 'fern-2', fromMs: 60_000, toMs: 200_000, quantities: ['soil_temperature'] },
    {
      quadrat: 'Q1',
      board: 'sedge-1',
      fromMs: 600_000,
      toMs: 901_000,
      quantities: ['soil_temperature', 'illuminance'],
    },
  ])
})
