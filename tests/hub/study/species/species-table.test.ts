import { describe, expect, test } from 'vitest'
import { SpeciesTable } from '../../../../hub/contract/species.ts'
import { readSpeciesTable } from '../../../../hub/study/species/read-species-table.ts'
import { openQuestions, referenceBytes, sheetOf, tableOf, valuesOf } from './sheet.ts'

describe('A12 cover: plus, zero and blank', () => {
  // domain map, story A12: common practice, computed by hand
  const typed = ['12', '0', '+', '35', '', '4', '0', '20', '8', '0']
  const text = `Cover %,Ivy,Moss\n${typed.map((cover, place) => `Q${place + 1},${cover},1.5\n`).join('')}`
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

  test('blank means not recorded: mean 8.83 %, frequency 66.7 %', async () => {
    const table = await tableOf(text, { blank: 'not-recorded' })
    const ivy = table.records.filter(({ taxon }) => taxon === 'Ivy')
    expect(ivy).toHaveLength(9)
    expect(mean(ivy.map(({ value }) => value)).toFixed(2)).toBe('8.83')
    expect(((100 * ivy.filter(({ present }) => present).length) / 9).toFixed(1)).toBe('66.7')
    expect(table.notRecorded).toEqual([{ quadrat: 'Q5', taxon: 'Ivy', cell: 'B6' }])
    expect(table.blanks).toBe('not-recorded')
  })
  test('blank means absent: 7.95 % and 60 %', async () => {
    const ivy = (await tableOf(text, { blank: 'absent' })).records.filter(({ taxon }) => taxon === 'Ivy')
    expect(mean(ivy.map(({ value }) => value)).toFixed(2)).toBe('7.95')
    expect(ivy.filter(({ present }) => present)).toHaveLength(6)
  })
  test('until somebody has said, it is asked, once', async () => {
    const table = await tableOf(text)
    expect(openQuestions(table)).toEqual(['blank'])
    expect(table.blanks).toBeNull()
    expect(table.repairs).toContainEqual(expect.objectContaining({ cell: 'B4', from: '+', to: '0.5' }))
  })
  test('the stand-in of a trace can be changed', async () => {
    expect(valuesOf(await tableOf(text, { trace: '0,1' }), 'Ivy')['Q3']).toBe(0.1)
  })
  test('71 + 23 + 9 + 6 = 109 % is accepted as layers; 710 is refused by its cell', async () => {
    const layered = await tableOf('Species,Q1\nGrass,71\nClover,23\nPlantain,9\nBare ground,6\n')
    expect(layered.notes.join(' ')).toContain('Q1 adds up to 109 %')
    expect(layered.faults).toEqual([])
    expect(layered.ground.map(({ value }) => value)).toEqual([6])
    const slip = await tableOf('Species,Q1\nGrass,710\nClover,23\n')
    expect(slip.faults).toEqual([{ cell: 'B2', written: '710', message: expect.stringContaining('100 %') }])
    expect(valuesOf(slip, 'Grass')).toEqual({})
    expect(openQuestions(slip)).toEqual(['faults'])
  })
  test('7 of 5 × 5 points is 28 %, and without the number of points it is asked', async () => {
    const grid = 'Grid hits,Ivy\nQ1,7\nQ2,0\n'
    expect(openQuestions(await tableOf(grid))).toEqual(['out-of'])
    expect(valuesOf(await tableOf(grid, { 'out-of': '25' }), 'Ivy')).toEqual({ Q1: 28, Q2: 0 })
    expect(valuesOf(await tableOf('Quadrat,Ivy\nQ1,7/25\n'), 'Ivy')).toEqual({ Q1: 28 })
  })
  test('a sum of 200 % passes, above it the quadrat is a fault', async () => {
    const table = await tableOf('Species,Q1,Q2\nGrass,100,100\nClover,100,100\nMoss,0,0.5\n')
    expect(table.faults).toEqual([expect.objectContaining({ cell: 'C1', written: 'Q2' })])
    expect(new Set(table.records.map(({ quadrat }) => quadrat))).toEqual(new Set(['Q1']))
  })
})

describe('what classes type into cells', () => {
  // domain map 2.8: common practice, no source
  test.each([
    ['35 %', 35],
    ['35 ', 35],
    ['"12,5"', 12.5],
    ['３５', 35],
    ['<1', 0.5],
    ['tr', 0.5],
    ['0', 0],
    ['.5', 0.5],
    ['100', 100],
  ])('%s is a cover of %d', async (written, value) => {
    expect(valuesOf(await tableOf(`Cover,Ivy,Moss\nQ1,${written},20.5\n`), 'Ivy')).toEqual({ Q1: value })
  })
  test.each([
    ['-3', /below 0/],
    ['1OO', /is 100 meant/],
    ['many', /text where a number/],
    ['20-30', /a range/],
    ['✓', /a tick/],
    ['100.5', /more than 100/],
    ['#DIV/0!', /text/],
  ])('%s is a fault', async (written, message) => {
    expect((await tableOf(`Cover,Ivy,Moss\nQ1,${written},20\n`)).faults).toEqual([
      { cell: 'B2', written, message: expect.stringMatching(message) },
    ])
  })
  test('n/a is not recorded; a dash and a dot are blanks, and asked about with them', async () => {
    const table = await tableOf('Cover,Ivy,Moss,Fern\nQ1,n/a,-,20\nQ2,1,.,3\n', { blank: 'absent' })
    expect(valuesOf(table, 'Moss')).toEqual({ Q1: 0, Q2: 0 })
    expect(table.notRecorded).toEqual([{ quadrat: 'Q1', taxon: 'Ivy', cell: 'B2' }])
  })
  test('a wholly blank quadrat is not surveyed, whatever blanks mean', async () => {
    const table = await tableOf('Species,Q1,Q2,Q3\nIvy,20,,-\nMoss,,,n/a\n', { blank: 'absent' })
    expect(table.quadrats.map(({ isSurveyed }) => isSurveyed)).toEqual([true, false, false])
    expect(valuesOf(table, 'Moss')).toEqual({ Q1: 0 })
    expect(table.notes.join(' ')).toContain('Q2, Q3: not surveyed')
  })
  test('ticks are presence; a cross beside ticks is asked about, alone it is a tick', async () => {
    expect(valuesOf(await tableOf('Quadrat,Ivy\nQ1,✓\nQ2,0\n'), 'Ivy')).toEqual({ Q1: 1, Q2: 0 })
    expect(valuesOf(await tableOf('Quadrat,Ivy\nQ1,x\nQ2,0\n'), 'Ivy')).toEqual({ Q1: 1, Q2: 0 })
    const both = 'Quadrat,Ivy\nQ1,✓\nQ2,x\n'
    expect(openQuestions(await tableOf(both))).toEqual(['cross'])
    expect(valuesOf(await tableOf(both, { cross: 'absent' }), 'Ivy')).toEqual({ Q1: 1, Q2: 0 })
  })
  test('small whole numbers could be several measures: asked', async () => {
    const text = 'Quadrat,Ivy\nQ1,3\nQ2,5\n'
    const table = await tableOf(text)
    expect(table.questions).toMatchObject([{ id: 'measure', answer: null }])
    expect(table.questions[0]!.choices.map(({ value }) => value)).toContain('domin')
    expect(
      (await tableOf(text, { measure: 'count' })).records.map(({ measure, value }) => [measure, value]),
    ).toEqual([
      ['count', 3],
      ['count', 5],
    ])
  })
  // mid-points of the class bounds: from memory, see hub/study/species/cover-classes.ts
  test('Braun-Blanquet and Domin classes stand as their mid-points', async () => {
    const codes = ['r', '+', '1', '2', '2m', '2a', '2b', '3', '4', '5']
    const braun = await tableOf(
      `Braun-Blanquet,Ivy\n${codes.map((code, place) => `Q${place + 1},${code}\n`).join('')}`,
    )
    expect(Object.values(valuesOf(braun, 'Ivy'))).toEqual([
      0.1, 0.5, 2.5, 15, 2.5, 8.75, 18.75, 37.5, 62.5, 87.5,
    ])
    const domin = await tableOf(
      `Domin,Ivy\nQ0,+\n${Array.from({ length: 10 }, (_, place) => `Q${place + 1},${place + 1}\n`).join('')}`,
    )
    expect(Object.values(valuesOf(domin, 'Ivy'))).toEqual([0.1, 0.5, 0.5, 2.5, 7, 18, 29.5, 42, 63, 83, 95.5])
    expect((await tableOf('Domin,Ivy\nQ1,11\n')).faults[0]!.message).toContain('Domin')
    expect((await tableOf('Braun-Blanquet,Ivy\nQ1,6\n')).faults[0]!.message).toContain('2a')
  })
  test('formulas without a saved result are asked about; a date in a number’s place is a fault', async () => {
    const { grid } = await sheetOf(referenceBytes('species-two-sheets.xlsx'), 'x.xlsx', 'Group A')
    const table = SpeciesTable.parse(readSpeciesTable(grid))
    expect(openQuestions(table)).toEqual(['formula', 'faults'])
    expect(table.faults).toEqual([expect.objectContaining({ cell: 'C4', written: '2026-02-01' })])
  })
})

describe('how the table was laid out', () => {
  const records = (text: string, answers = {}) =>
    tableOf(text, answers).then((table) => [
      table.reading,
      table.records.map(({ quadrat, taxon, value, cell }) => `${quadrat} ${taxon} ${value} ${cell}`),
    ])
  test('a list', async () => {
    expect(await records('Quadrat,Species,Cover (%)\nQ1,Ivy,20\nQ2,Ivy,0\n')).toEqual([
      expect.stringContaining('a list'),
      ['Q1 Ivy 20 C2', 'Q2 Ivy 0 C3'],
    ])
  })
  test('a list of what was found, without values, is presence; what is not in it is asked about', async () => {
    const text = 'Quadrat,Species\nQ1,Ivy\nQ2,Moss\n'
    expect(openQuestions(await tableOf(text))).toEqual(['blank'])
    expect(
      (await tableOf(text, { blank: 'absent' })).records.map(({ quadrat, taxon, value }) => [
        quadrat,
        taxon,
        value,
      ]),
    ).toEqual([
      ['Q1', 'Ivy', 1],
      ['Q2', 'Moss', 1],
      ['Q1', 'Moss', 0],
      ['Q2', 'Ivy', 0],
    ])
  })
  test('quadrats down, species across, with a remark and a sum', async () => {
    expect(
      await records('Class 10,,,\nQuadrat,Ivy,Moss,Total,Notes\nQ1,20,3,23,wet\nTotal,20,3,23,\n'),
    ).toEqual([expect.stringContaining('quadrats down'), ['Q1 Ivy 20 B3', 'Q1 Moss 3 C3']])
  })
  test('species down, quadrats across, also where the corner says quadrat and labels are numbers', async () => {
    expect(await records('Quadrat,1,2\nIvy,20,0\nMoss,3,5\n')).toEqual([
      expect.stringContaining('species down'),
      ['1 Ivy 20 B2', '2 Ivy 0 C2', '1 Moss 3 B3', '2 Moss 5 C3'],
    ])
  })
  test('two rows of headings, merged in .xlsx and .ods, with gaps in CSV', async () => {
    const expected = { Q1: 35, Q2: 12, Q3: 0 }
    for (const name of ['species-two-headings.xlsx', 'species-two-headings.ods']) {
      const table = SpeciesTable.parse(readSpeciesTable((await sheetOf(referenceBytes(name), name)).grid))
      expect(table.reading).toContain('two rows of headings')
      expect(valuesOf(table, 'Ivy')).toEqual(expected)
      expect(table.taxa.map(({ name: taxon }) => taxon)).toEqual(['Ivy', 'Bramble', 'Grass'])
      expect(table.quadrats[3]).toMatchObject({ label: 'Q4', isSurveyed: false })
    }
    const csv = ',Shade,,Open,\nSpecies,1,2,3,4\nIvy,35,12,0,1\nMoss,1,2,3,4\n'
    expect((await tableOf(csv)).quadrats.map(({ label }) => label)).toEqual(['1', '2', '3', '4'])
  })
  test('neither labels nor corner tell: asked, and a person’s word goes first', async () => {
    const text = ',North,South\nIvy,20,0\nMoss,30,5\n'
    expect(openQuestions(await tableOf(text))).toEqual(['layout'])
    expect((await tableOf(text, { layout: 'quadrats-down' })).quadrats.map(({ label }) => label)).toEqual([
      'Ivy',
      'Moss',
    ])
    const known = await tableOf(text, {}, { quadratLabels: ['north', 'South'] })
    expect([openQuestions(known), known.quadrats.map(({ label }) => label)]).toEqual([[], ['North', 'South']])
  })
  test('cells without a heading or a name are faults by address', async () => {
    expect((await tableOf('Species,Q1,,Q2\nIvy,20,7,1\n,3,,\n')).faults.map(({ cell }) => cell)).toEqual([
      'C2',
      'B3',
    ])
  })
  test('a list of more quadrats and species than any class has is refused, not worked through', async () => {
    const lines = Array.from({ length: 2000 }, (_, place) => `Q${place},Plant number ${place},5\n`)
    const { grid } = await sheetOf(`quadrat,species,cover\n${lines.join('')}`)
    expect(readSpeciesTable(grid)).toMatchObject({ code: 'E_SHEET_SIZE' })
  })
  test('one column, or several measures in one list, is refused', async () => {
    expect(readSpeciesTable((await sheetOf('some words\nand more\n')).grid)).toMatchObject({
      code: 'E_SHEET_LAYOUT',
    })
    expect(
      readSpeciesTable(
        (await sheetOf('quadrat,species,measure,value\nQ1,Ivy,cover,20\nQ1,Moss,hits,3\n')).grid,
      ),
    ).toMatchObject({ message: expect.stringContaining('cover, hits') })
  })
})

describe('names and doubles', () => {
  test('case and spaces are one taxon; near spellings are told, not merged; a genus alone is kept', async () => {
    const table = await tableOf(
      'Quadrat,Species,Cover\nQ1,Bramble,20\nQ2,bramble ,30\nQ3,Brambel,5\nQ4,Rubus sp.,1\n',
      { blank: 'absent' },
    )
    expect(table.taxa.map(({ name }) => name)).toEqual(['Bramble', 'Brambel', 'Rubus sp.'])
    expect(table.repairs).toContainEqual(expect.objectContaining({ cell: 'B3', to: 'Bramble' }))
    expect(table.notes.join(' ')).toMatch(/genus only.*Rubus sp\..*“Bramble” and “Brambel”/)
    const merged = await tableOf('Quadrat,Species,Cover\nQ1,Bramble,20\nQ3,Brambel,5\n', {
      'same:Brambel': 'Bramble',
    })
    expect(valuesOf(merged, 'Bramble')).toEqual({ Q1: 20, Q3: 5 })
  })
  test('a quadrat typed twice stops that quadrat only, and asks', async () => {
    const text = 'Quadrat,Ivy\nQ6,10\nQ7,20\nq 7,40\n'
    const open = await tableOf(text)
    expect(open.questions).toMatchObject([{ id: 'twice:Q7', answer: null }])
    expect(valuesOf(open, 'Ivy')).toEqual({ Q6: 10 })
    expect(valuesOf(await tableOf(text, { 'twice:Q7': 'mean' }), 'Ivy')).toEqual({ Q6: 10, Q7: 30 })
    expect(valuesOf(await tableOf(text, { 'twice:Q7': 'A4' }), 'Ivy')).toEqual({ Q6: 10, Q7: 40 })
    expect(valuesOf(await tableOf(text, { 'twice:Q7': 'none' }), 'Ivy')).toEqual({ Q6: 10 })
  })
  test('a species typed twice asks once for the species; a pair of a list for the pair', async () => {
    expect(openQuestions(await tableOf('Species,Q1,Q2\nIvy,20,3\nivy,5,6\n'))).toEqual(['twice:Ivy'])
    expect(openQuestions(await tableOf('Quadrat,Species,Cover\nQ1,Ivy,20\nQ1,ivy,30\n'))).toEqual([
      'twice:Q1:Ivy',
    ])
  })
  test('the same file with the same answers is the same table', async () => {
    const text = 'Quadrat,Ivy,Moss\nQ1,20,\nq1,3,+\n'
    const answers = { blank: 'absent', 'twice:Q1': 'mean' }
    expect(SpeciesTable.parse(await tableOf(text, answers))).toEqual(await tableOf(text, answers))
  })
})
