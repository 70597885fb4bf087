import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvCell, csvRows, csvText } from '../../dashboard/quality/csv/csv.ts'
import { decisionsCsv } from '../../dashboard/quality/decisions/decision-csv.ts'
import { quadratsIn } from '../../dashboard/quality/decisions/decision-place.ts'
import { changedSides } from '../../dashboard/quality/limits/changed-sides.ts'
import { cell } from '../../hub/export/readings-csv.ts'

describe('csvCell', () => {
  it('is quoted where RFC 4180 asks for it, and no formula', () => {
    expect(csvCell('plain')).toBe('plain')
    expect(csvCell('a, "b"')).toBe('"a, ""b"""')
    expect(csvCell('two\nlines')).toBe('"two\nlines"')
    expect(csvCell('=1+1')).toBe("'=1+1")
    expect(csvCell('-Fern')).toBe("'-Fern")
    expect(csvCell('-2.5')).toBe('-2.5')
    expect(csvCell('@me,too')).toBe('"\'@me,too"')
  })
  it('is the same as in the hub’s own downloads, whatever the text', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => csvCell(text) === cell(text)))
  })
})

describe('csvRows', () => {
  it('reads back what csvText wrote', () => {
    const letter = fc.constantFrom('a', ',', '"', '\r', '\n', ' ', 'é')
    const word = fc.string({ unit: letter, maxLength: 6 })
    fc.assert(
      fc.property(fc.array(fc.array(word, { minLength: 1, maxLength: 4 }), { maxLength: 5 }), (rows) => {
        // a carriage return at the beginning gets an apostrophe for safety
        const safe = rows.map((row) => row.map((text) => text.replace(/^\r+/, '')))
        expect(csvRows(csvText(safe))).toEqual(safe)
      }),
    )
  })
  it('takes LF and a last line without an end', () => {
    expect(csvRows('a,b\n1,\n,2')).toEqual([
      ['a', 'b'],
      ['1', ''],
      ['', '2'],
    ])
    expect(csvRows('')).toEqual([])
    expect(csvRows('a,')).toEqual([['a', '']])
  })
})

const placements = [
  { probe: 'ph-1', quadrat: 'Q1', from: '2026-06-12T09:00:00Z' },
  { probe: 'ph-1', quadrat: null, from: '2026-06-12T10:00:00Z' },
  { probe: 'ph-1', quadrat: 'Q2', from: '2026-06-12T10:10:00Z', to: '2026-06-12T11:00:00Z' },
  { probe: 'ph-2', quadrat: 'Q3', from: '2026-06-12T09:00:00Z' },
]
const span = (from: string, to: string) => ({
  probe: 'ph-1',
  from: `2026-06-12T${from}:00Z`,
  to: `2026-06-12T${to}:00Z`,
})

describe('quadratsIn', () => {
  it('are those the probe stood at within the span, in order', () => {
    expect(quadratsIn({ placements }, span('09:10', '09:20'))).toEqual(['Q1'])
    expect(quadratsIn({ placements }, span('09:50', '10:20'))).toEqual(['Q1', 'Q2'])
    expect(quadratsIn({ placements }, span('10:00', '10:10'))).toEqual([])
    expect(quadratsIn({ placements }, span('11:00', '12:00'))).toEqual([])
  })
})

describe('decisionsCsv', () => {
  it('is a row a decision, those taken back too', () => {
    const text = decisionsCsv({
      placements,
      probes: [{ id: 'ph-1', quantity: 'soil_ph', method: {}, board: 'b', channel: 'ph' }],
      decisions: [
        {
          ...span('09:50', '10:20'),
          id: 'd1',
          action: 'exclude',
          reason: '=cable, "pulled"',
          by: '-Fern',
          at: '2026-06-12T12:00:00Z',
        },
        {
          ...span('09:10', '09:20'),
          id: 'd2',
          action: 'accept',
          reason: 'rain, seen',
          at: '2026-06-12T12:01:00Z',
          takenBack: { at: '2026-06-12T12:02:00Z', by: 'Moss' },
        },
      ],
    })
    const [heading, first, second] = csvRows(text)
    expect(heading).toEqual([
      ...['id', 'made_at', 'by', 'probe', 'quantity', 'quadrat', 'from', 'to', 'action', 'reason'],
      ...['taken_back_at', 'taken_back_by'],
    ])
    expect(first?.slice(2, 6)).toEqual(["'-Fern", 'ph-1', 'soil_ph', 'Q1 Q2'])
    expect(first?.[9]).toBe('\'=cable, "pulled"')
    expect(second?.slice(9)).toEqual(['rain, seen', '2026-06-12T12:02:00Z', 'Moss'])
    expect(text.endsWith('\r\n')).toBe(true)
  })
})

describe('changedSides', () => {
  const heading = 'time,quadrat,probe,signal,reason,why\r\n'
  const row = (second: number, why = 'x', probe = 'ph-1') =>
    `2026-06-12T09:00:0${second}.000Z,Q1,${probe},12,spike,"${why}, and more"\r\n`
  const NOW = '2026-06-12T09:00:09.000Z'
  it('counts readings that went over, not those left out for another reason', () => {
    const before = heading + row(1) + row(2) + row(3)
    const after = heading + row(2, 'another') + row(3) + row(4) + row(5) + row(4, 'x', 'ph-2')
    expect(changedSides(before, after, NOW)).toEqual({ leftOut: 3, letIn: 1 })
    expect(changedSides(before, before, NOW)).toEqual({ leftOut: 0, letIn: 0 })
  })
  it('does not blame a change for readings that had not been tested before', () => {
    const testedUpTo = '2026-06-12T09:00:04.000Z'
    expect(changedSides(heading, heading + row(4) + row(5), testedUpTo)).toEqual({ leftOut: 1, letIn: 0 })
  })
  it('tells two readings of the same moment apart by their number', () => {
    expect(changedSides(heading + row(1) + row(1), heading + row(1), NOW)).toEqual({ leftOut: 0, letIn: 1 })
  })
})
