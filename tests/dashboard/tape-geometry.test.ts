import { describe, expect, it } from 'vitest'
import {
  drawnMarks,
  isLongMark,
  markCount,
  numberEveryMetres,
  spreadCentres,
  tapeMarks,
} from '../../dashboard/tape-geometry.ts'

describe('tapeMarks', () => {
  it('has 41 marks on 20 m at 0.5 m', () => {
    const marks = tapeMarks(20, 0.5)
    expect(marks).toHaveLength(41)
    expect(marks.filter(({ isMetre }) => isMetre)).toHaveLength(21)
    expect(marks[0]).toEqual({ metres: 0, isMetre: true })
    expect(marks.at(-1)).toEqual({ metres: 20, isMetre: true })
  })
  it('does not lose the last mark to rounding', () => {
    expect(markCount(0.3, 0.1)).toBe(4)
    expect(markCount(20, 0.1)).toBe(201)
  })
  it('ends before a length that is no multiple', () => {
    expect(tapeMarks(1.2, 0.5).map(({ metres }) => metres)).toEqual([0, 0.5, 1])
  })
  it('has none without a length or a spacing', () => {
    expect(markCount(0, 0.5)).toBe(0)
    expect(markCount(20, 0)).toBe(0)
    expect(markCount(Number.NaN, 0.5)).toBe(0)
  })
})

describe('drawing', () => {
  it('thins marks and numbers that would run together', () => {
    expect(drawnMarks(20, 0.5, 50)).toHaveLength(41)
    expect(drawnMarks(200, 0.5, 5)).toHaveLength(201)
    expect(numberEveryMetres(50)).toBe(1)
    expect(numberEveryMetres(5)).toBe(5)
    expect(numberEveryMetres(0.01)).toBe(1000)
  })
})

describe('isLongMark', () => {
  it('is each metre where there is room, and the numbered ones where there is none', () => {
    expect(isLongMark({ metres: 3, isMetre: true }, 50, 1)).toBe(true)
    expect(isLongMark({ metres: 3.5, isMetre: false }, 50, 1)).toBe(false)
    expect(isLongMark({ metres: 3, isMetre: true }, 5, 10)).toBe(false)
    expect(isLongMark({ metres: 20, isMetre: true }, 5, 10)).toBe(true)
  })
})

describe('spreadCentres', () => {
  it('leaves alone what has room', () => {
    expect(spreadCentres([10, 50, 90], 20, 0, 100)).toEqual([10, 50, 90])
  })
  it('moves neighbours apart evenly about where they were', () => {
    expect(spreadCentres([50, 50], 20, 0, 100)).toEqual([40, 60])
    expect(spreadCentres([40, 50, 60], 20, 0, 100)).toEqual([30, 50, 70])
  })
  it('keeps within the page', () => {
    expect(spreadCentres([0, 1], 20, 10, 100)).toEqual([10, 30])
    expect(spreadCentres([99, 100], 20, 0, 90)).toEqual([70, 90])
  })
  it('of nothing is nothing, and the gap holds when there is no room at all', () => {
    expect(spreadCentres([], 20, 0, 100)).toEqual([])
    expect(spreadCentres([5, 5, 5], 20, 0, 10)).toEqual([0, 20, 40])
  })
})
