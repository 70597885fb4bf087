import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import lichen from '../../reference/eco-varespec-results.json' with { type: 'json' }
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { runTussock } from '../../support/tussock-command.ts'
import { referencePath } from '../study/species/sheet.ts'

type Row = Record<string, string>
const rowsOf = (path: string): Row[] => parse(readFileSync(path, 'utf8'), { columns: true })

/** Rank correlation written for this test alone: Pearson of mid-ranks. */
function spearman(x: readonly number[], y: readonly number[]): number {
  const ranks = (values: readonly number[]) =>
    values.map(
      (value) =>
        values.filter((other) => other < value).length +
        (values.filter((other) => other === value).length + 1) / 2,
    )
  const [a, b] = [ranks(x), ranks(y)]
  const middle = (x.length + 1) / 2
  const sum = (one: number[], two: number[]) =>
    one.reduce((total, rank, place) => total + (rank - middle) * (two[place]! - middle), 0)
  return sum(a, b) / Math.sqrt(sum(a, a) * sum(b, b))
}

describe('the lichen pasture', () => {
  // tests/reference/eco-varespec*.{csv,json}: Väre, Ohtonen & Oksanen 1995, R package vegan; rho by R cor.test and scipy
  test('24 sites join, every cell is the original’s, and rho of pH with the five commonest is R’s', async () => {
    const folder = temporaryFolder()
    const [out, long, unmatched] = ['wide.csv', 'long.csv', 'left.csv'].map((name) => join(folder, name))
    const files = [
      '--readings',
      referencePath('eco-varechem.csv'),
      '--species',
      referencePath('eco-varespec.csv'),
    ]
    const run = await runTussock('join', ...files, '--out', out!, '--long', long!, '--unmatched', unmatched!)
    expect(run).toMatchObject({ code: 0, stderr: '' })
    expect(run.stdout).toContain('24 joined')
    expect(run.stdout).toContain('24 quadrats × 44 taxa = 1056 values')
    const joined = rowsOf(out!)
    expect(joined).toHaveLength(24)
    expect(rowsOf(long!)).toHaveLength(24 * 44)
    expect(rowsOf(unmatched!)).toEqual([])
    for (const name of ['eco-varechem.csv', 'eco-varespec.csv'])
      for (const { site, ...cells } of rowsOf(referencePath(name))) {
        const row = joined.find(({ quadrat }) => quadrat === site)!
        for (const [column, text] of Object.entries(cells)) expect(Number(row[column])).toBe(Number(text))
      }
    const column = (name: string) => joined.map((row) => Number(row[name]))
    for (const { species, rho, mean_cover } of lichen.top5_by_mean_cover) {
      expect(spearman(column('pH'), column(species))).toBeCloseTo(rho, 12)
      expect(column(species).reduce((sum, value) => sum + value, 0) / 24).toBeCloseTo(mean_cover, 10)
    }
    const before = readFileSync(out!, 'utf8')
    await runTussock('join', ...files, '--out', out!)
    expect(readFileSync(out!, 'utf8')).toBe(before)
  })
})

describe('A13 through the command', () => {
  // domain map, story A13
  const typed = ['q1', 'Q 2', 'Quadrat 3', 'Q04', '05', 'Q6 ', 'Q7', 'Q8', 'Q9', 'Q1O']
  function files(labels: readonly string[]) {
    const folder = temporaryFolder()
    const path = (name: string) => join(folder, name)
    const readings = Array.from(
      { length: 10 },
      (_, place) => `Q${place + 1},soil_ph,${5 + place / 10}\r\n`,
    ).join('')
    writeFileSync(path('clean.csv'), `quadrat,quantity,value\r\n${readings}`)
    writeFileSync(
      path('species.csv'),
      `Cover,Ivy,Moss\r\n${labels.map((label, place) => `${label},${place * 3},+\r\n`).join('')}`,
    )
    return {
      out: path('joined.csv'),
      args: [
        'join',
        '--readings',
        path('clean.csv'),
        '--species',
        path('species.csv'),
        '--out',
        path('joined.csv'),
      ],
    }
  }
  test('a look-alike is asked about, nothing is written, and the printed option answers it', async () => {
    const { out, args } = files(typed)
    const asked = await runTussock(...args)
    expect(asked.code).toBe(2)
    expect(asked.stdout).toContain('--confirm "Q1O=Q10"')
    expect(existsSync(out)).toBe(false)
    const done = await runTussock(...args, '--confirm', 'Q1O=Q10')
    expect(done.code).toBe(0)
    expect(done.stdout).toContain('“05” is Q5: number only')
    expect(
      rowsOf(out)
        .map(({ quadrat, soil_ph_median, Ivy, Moss }) => [quadrat, soil_ph_median, Ivy, Moss])
        .at(-1),
    ).toEqual(['Q10', '5.9', '27', '0.5'])
    expect(rowsOf(out)).toHaveLength(10)
  })
  test('a second Q7 stops it and asks for Q7 only; a wrong answer is refused by name', async () => {
    const { out, args } = files([...typed, 'Q7'])
    const confirmed = [...args, '--confirm', 'Q1O=Q10']
    const asked = await runTussock(...confirmed)
    expect(asked.code).toBe(2)
    expect(asked.stdout.match(/--answer "twice:Q7=mean"/g)).toHaveLength(1)
    expect(asked.stdout).not.toContain('twice:Q6')
    for (const wrong of [
      ['--answer', 'twice:Q7=both'],
      ['--answer', 'twice:Q8=mean'],
      ['--answer', 'mean'],
      ['--confirm', 'Q7=Q99'],
    ])
      expect((await runTussock(...confirmed, ...wrong)).stderr).toContain('E_COMMAND')
    expect((await runTussock(...confirmed, '--answer', 'twice:Q7=mean')).code).toBe(0)
    expect(rowsOf(out).find(({ quadrat }) => quadrat === 'Q7')!['Ivy']).toBe('24') // (18 + 30) / 2
  })
})

describe('tussock join refuses', () => {
  test('several sheets until one is chosen, labels without a partner, files that are not there, wrong options', async () => {
    const folder = temporaryFolder()
    const readings = join(folder, 'clean.csv')
    writeFileSync(readings, 'quadrat,quantity,value\nQ1,soil_ph,5\nQ2,soil_ph,6\nQ3,soil_ph,6\n')
    const run = (species: string, ...more: string[]) =>
      runTussock(
        'join',
        '--readings',
        readings,
        '--species',
        species,
        '--out',
        join(folder, 'out.csv'),
        ...more,
      )
    const workbook = referencePath('species-two-sheets.xlsx')
    expect(await run(workbook)).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('--sheet "Group A"'),
    })
    const faulty = await run(workbook, '--sheet', 'Group A')
    expect(faulty.stdout).toMatch(
      /C4: “2026-02-01” cannot be used.*--answer "formula=not-recorded".*--faults leave-out/s,
    )
    expect(
      (await run(workbook, '--sheet', 'Group A', '--faults', 'leave-out', '--answer', 'formula=not-recorded'))
        .code,
    ).toBe(0)
    const elsewhere = join(folder, 'heath.csv')
    writeFileSync(elsewhere, 'Cover,Ivy\nP7,20\nP8,30\n')
    expect(await run(elsewhere)).toMatchObject({ code: 1, stderr: expect.stringContaining('E_JOIN_EMPTY') })
    expect(await run(join(folder, 'none.csv'))).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('cannot be read'),
    })
    for (const wrong of [
      ['--blank', 'maybe'],
      ['--trace', '50'],
      ['--out-of', '0'],
      ['--long', readings],
      ['extra'],
    ])
      expect((await run(elsewhere, ...wrong)).stderr).toContain('E_COMMAND')
  })
})
