import { expect, test } from 'vitest'
import { readStretchForm, type StretchForm } from '../../dashboard/field/placements/change-stretch.ts'
import { roleOf, rolesFor, roleWish } from '../../dashboard/field/placements/probe-role.ts'
import type { Stretch } from '../../dashboard/field/placements/stretches.ts'

// expected values follow from the form as written

const begins = '2026-06-12T08:00:00.500Z'
const stretch: Stretch = {
  kind: 'at',
  quadrat: 'Q1',
  fromMs: Date.parse(begins),
  toMs: Date.parse('2026-06-12T09:30:00.250Z'),
  begins,
}
const form: StretchForm = {
  action: 'rest',
  quadrat: 'Q2',
  // Berlin is 2 h ahead of UTC in June (tz database)
  at: '2026-06-12T10:42:00',
  from: '2026-06-12T10:00:00',
  to: '2026-06-12T11:30:00',
  reason: 'nobody pressed “next”',
}
const read = (part: Partial<StretchForm>, of: Stretch = stretch) =>
  readStretchForm('ph-1', of, { ...form, ...part }, 'Europe/Berlin')

test('“from then on it was at Q2” cuts the placement at that moment', () => {
  expect(read({})).toEqual({
    change: {
      kind: 'amend',
      wish: {
        probe: 'ph-1',
        begins,
        reason: form.reason,
        split: { at: '2026-06-12T08:42:00.000Z', part: 'after', quadrat: 'Q2' },
      },
    },
    said: 'From 10:42:00 on ph-1 was at Q2.',
  })
})

test('“up to then it was in transit” reassigns the part before', () => {
  const answer = read({ action: 'first', quadrat: '' })
  expect('change' in answer && answer.change).toMatchObject({
    wish: { split: { part: 'before', quadrat: null } },
  })
})

test('from its very beginning on is no cut, but another quadrat', () => {
  const answer = read({ at: '2026-06-12T10:00:00' })
  expect('change' in answer && answer.change).toMatchObject({ wish: { set: { quadrat: 'Q2' } } })
})

test('times nobody touched keep their milliseconds; nothing touched is no change', () => {
  const answer = read({ action: 'times', to: '2026-06-12T11:00:00' })
  expect('change' in answer && answer.change).toMatchObject({
    wish: { set: { to: '2026-06-12T09:00:00.000Z' } },
  })
  expect('change' in answer && answer.change.kind === 'amend' && answer.change.wish.set).not.toHaveProperty(
    'from',
  )
  expect(read({ action: 'times' })).toEqual({ wrong: { from: 'nothing is changed yet' } })
  const open = read({ action: 'times', to: '' })
  expect('change' in open && open.change).toMatchObject({ wish: { set: { to: null } } })
})

test('a time nothing was said about is filled by placing the probe', () => {
  const gap: Stretch = { kind: 'none', quadrat: null, fromMs: stretch.fromMs, toMs: null, begins: null }
  const answer = read({}, gap)
  expect('change' in answer && answer.change).toEqual({
    kind: 'place',
    placing: { probe: 'ph-1', quadrat: 'Q2', from: '2026-06-12T08:42:00.000Z', reason: form.reason },
  })
})

test.each([
  ['no reason', { reason: ' a ' }, 'reason'],
  ['a moment before it came', { at: '2026-06-12T09:59:59' }, 'at'],
  ['a moment after it went', { at: '2026-06-12T11:30:01' }, 'at'],
  ['no moment at all', { at: 'soon' }, 'at'],
  ['where it was anyway', { quadrat: 'Q1' }, 'quadrat'],
  ['an end before the beginning', { action: 'times', to: '2026-06-12T09:00:00' }, 'to'],
  ['up to its own beginning', { action: 'first', at: '2026-06-12T10:00:00' }, 'at'],
] as const)('%s is said at its field', (_what, part, field) => {
  const answer = read(part)
  expect('wrong' in answer && Object.keys(answer.wrong)).toEqual([field])
})

test('only a light probe can stand under the open sky, only a wind probe on the mast; leaving a role says so', () => {
  const probe = { id: 'lux-1', quantity: 'illuminance', method: {}, board: 'b', channel: 'light' }
  expect(rolesFor(probe)).toEqual(['standing', 'carried', 'open-sky'])
  expect(rolesFor({ ...probe, quantity: 'soil_ph' })).toEqual(['standing', 'carried'])
  expect(roleOf({ ...probe, reference: 'open-sky' })).toBe('open-sky')
  expect(roleWish('standing')).toEqual({ isCarried: false, reference: null })
  expect(roleWish('wind-mast')).toEqual({ isCarried: false, reference: 'wind-mast' })
})
