import { expect, test } from 'vitest'
import { marksByZone, marksOnTape, touchesInZone } from '../../../../hub/study/species/transect-touches.ts'
import { openQuestions, tableOf } from './sheet.ts'

// domain map, story A14: 20 m, marks every 0.5 m, shade 0–6.0 m, open 6.5–20.0 m; bramble at 9 and 7 of them
const zones = [
  { name: 'shade', fromMetres: 0, toMetres: 6 },
  { name: 'open', fromMetres: 6.5, toMetres: 20 },
]
const marks = Array.from({ length: 41 }, (_, place) => {
  const metres = place / 2
  const isTouched = metres <= 4 || (metres >= 6.5 && metres <= 9.5)
  if (metres === 3.5) return { metres, text: 'bramble/ivy' }
  return { metres, text: isTouched ? 'Bramble' : 'bare' }
})
const sheet = `mark,touched\n${marks.map(({ metres, text }) => `${metres},${text}\n`).join('')}`

test('A14: 41 marks on 20 m at 0.5 m, 13 in the shade and 28 in the open', () => {
  expect(marksOnTape(20, 0.5)).toBe(41)
  expect(marksOnTape(0.3, 0.1)).toBe(4)
  const tape = marks.map(({ metres }) => ({ metres, taxa: [] }))
  expect(marksByZone(tape, zones).map((zone) => zone.marks.length)).toEqual([13, 28])
})

test('A14: bramble touches 69.2 % in the shade, 25.0 % in the open, 39.0 % of the whole line', async () => {
  const told = (percent: number) => percent.toFixed(1)
  const table = await tableOf(sheet, {}, { zones })
  const bramble = table.records.filter(({ taxon }) => taxon.toLowerCase() === 'bramble')
  expect(bramble.map(({ quadrat, value, asWritten }) => [quadrat, told(value), asWritten])).toEqual([
    ['shade', '69.2', '9 of 13 marks'],
    ['open', '25.0', '7 of 28 marks'],
  ])
  const line = await tableOf(sheet)
  expect(told(line.records.find(({ taxon }) => taxon === 'Bramble')!.value)).toBe('39.0')
  expect(line.records.find(({ taxon }) => taxon === 'ivy')!.asWritten).toBe('1 of 41 marks')
  expect(line.ground.map(({ asWritten }) => asWritten)).toEqual(['25 of 41 marks'])
})

test('the sum over taxa may pass 100 %', () => {
  const both = [{ metres: 0, taxa: ['bramble', 'ivy'] }]
  expect(touchesInZone('line', both, ['bramble', 'ivy']).map(({ percent }) => percent)).toEqual([100, 100])
  expect(touchesInZone('line', [], ['ivy'])).toEqual([])
})

test('an empty mark is asked about: nothing, or forgotten', async () => {
  const text = 'mark;zone;touched\n0;shade;ivy\n0,5;shade;\n1;shade;bare\n'
  expect(openQuestions(await tableOf(text))).toEqual(['empty-mark'])
  const ivy = async (answer: string) => (await tableOf(text, { 'empty-mark': answer })).records[0]!.asWritten
  expect([await ivy('nothing'), await ivy('forgotten')]).toEqual(['1 of 3 marks', '1 of 2 marks'])
})

test('a mark that is no number, or comes twice, is a fault', async () => {
  const table = await tableOf('mark,touched\n0,ivy\nzero,ivy\n0,moss\n')
  expect(table.faults.map(({ cell }) => cell)).toEqual(['A3', 'A4'])
})
