import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../../calibration/index.ts'
import { AnimalTable } from '../../../../hub/contract/species.ts'
import { animalRates } from '../../../../hub/study/species/animal-rates.ts'
import { animalHeadings, readAnimals } from '../../../../hub/study/species/read-animals.ts'
import { sheetOf } from './sheet.ts'

async function animalsOf(text: string) {
  const table = readAnimals((await sheetOf(text)).grid)
  if (isRefusal(table)) throw new Error(table.message)
  return AnimalTable.parse(table)
}

const pitfalls = `trap,taxon,count,method,set,checked
T1,Ground beetle,3,Pitfall traps,2026-06-12 18:00,2026-06-13 08:00
T1,Woodlouse,2,pitfall trap,2026-06-12 18:00,2026-06-13 08:00
T2,none,0,pitfall trap,2026-06-12 18:00,2026-06-13 10:00
T3,ground beetle,4,pitfall trap,2026-06-12 18:00,2026-06-13 06:00
N1,Hoverfly,6,sweep net,,
`

describe('animals typed in a sheet', () => {
  // computed by hand: three traps stood 14 + 16 + 12 = 42 hours and held 7 ground beetles and 2 woodlice
  test('counts for each trap and each hour, empty traps included, methods apart', async () => {
    const { records, repairs } = await animalsOf(pitfalls)
    expect(records[0]).toMatchObject({
      taxon: 'Ground beetle',
      method: 'pitfall trap',
      station: 'T1',
      effort: { setAt: '2026-06-12T18:00:00', hours: 14 },
      cell: 'C2',
    })
    expect(records[2]).toMatchObject({ taxon: null, count: 0 })
    expect(repairs).toEqual([expect.objectContaining({ cell: 'B5', to: 'Ground beetle' })])
    const rates = animalRates(records)
    expect(rates).toMatchObject([
      { method: 'pitfall trap', taxon: 'Ground beetle', count: 7, traps: 3, trapHours: 42 },
      { taxon: 'Woodlouse', count: 2, traps: 3 },
      { method: 'sweep net', taxon: 'Hoverfly', traps: 1, trapHours: null, perTrapHour: null },
    ])
    expect(rates[0]!.perTrap).toBeCloseTo(7 / 3, 12)
    expect(rates[0]!.perTrapHour).toBeCloseTo(7 / 42, 12)
  })
  test('faults by cell: no trap, no whole count, a time of another form, checked before set', async () => {
    const { faults, records } = await animalsOf(
      'trap,taxon,count,set,checked\n,Ant,1,,\nT1,Ant,1.5,,\nT1,Ant,1,12/6/26,\nT1,Ant,1,2026-06-13 08:00,2026-06-12 08:00\n',
    )
    expect(faults.map(({ cell }) => cell)).toEqual(['A2', 'C3', 'D4', 'E5'])
    expect(records).toEqual([])
  })
  test('the printed headings are those that are read; without trap, taxon and count it is refused', async () => {
    const { records } = await animalsOf(
      `${animalHeadings.join(',')}\nS1,Ant,2,hand search,,,0.5,,3\nS2,Bug,4,my own way,,,,20,\n`,
    )
    expect(records.map(({ method, effort }) => [method, effort])).toEqual([
      ['hand search', { hours: 0.5, traps: 3 }],
      ['my own way', { sweeps: 20 }],
    ])
    expect(readAnimals((await sheetOf('trap,colour\nT1,red\n')).grid)).toMatchObject({
      code: 'E_SHEET_LAYOUT',
    })
  })
})
