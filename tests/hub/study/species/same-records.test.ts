import fc from 'fast-check'
import { expect, test } from 'vitest'
import { tableOf } from './sheet.ts'

const cover = fc.oneof(
  fc.integer({ min: 0, max: 40 }).map(String),
  fc.double({ min: 0, max: 40, noNaN: true }).map((value) => value.toFixed(1)),
  fc.constantFrom('+', '<1', '', 'n/a', '3 %', '-'),
)
const habitat = fc
  .record({ quadrats: fc.integer({ min: 2, max: 6 }), taxa: fc.integer({ min: 2, max: 4 }) })
  .chain(({ quadrats, taxa }) =>
    fc.array(fc.array(cover, { minLength: taxa, maxLength: taxa }), {
      minLength: quadrats,
      maxLength: quadrats,
    }),
  )
const names = ['Ivy', 'Wood sorrel', '"Fern, male"', 'Rubus sp.']

test('any table written as a list, quadrats down or species down reads to the same records', async () => {
  await fc.assert(
    fc.asyncProperty(habitat, fc.constantFrom('absent', 'not-recorded'), async (covers, blank) => {
      const taxa = names.slice(0, covers[0]!.length)
      const label = (place: number) => `Q${place + 1}`
      const long = `Quadrat,Species,Cover\n${covers.flatMap((row, q) => row.map((text, t) => `${label(q)},${taxa[t]},${text}\n`)).join('')}`
      const down = `Cover,${taxa.join(',')}\n${covers.map((row, q) => `${label(q)},${row.join(',')}\n`).join('')}`
      const across = `Cover,${covers.map((_, q) => label(q)).join(',')}\n${taxa.map((taxon, t) => `${taxon},${covers.map((row) => row[t]).join(',')}\n`).join('')}`
      const answers = { blank, measure: 'cover-percent' }
      const read = await Promise.all(
        [long, down, across].map(async (text) => {
          const { records } = await tableOf(text, answers)
          return records.map(({ cell: _, ...record }) => JSON.stringify(record)).sort()
        }),
      )
      expect(read[1]).toEqual(read[0])
      expect(read[2]).toEqual(read[0])
    }),
    { numRuns: 150 },
  )
})
