import { expect, test } from 'vitest'
import { alike } from '../../dashboard/field/depart/alike-items.ts'
import type { DepartureItem } from '../../hub/contract/field.ts'

const item = (title: string, words: string): DepartureItem => ({
  about: 'probes',
  state: 'look',
  title,
  words,
  remedy: 'Read it in a known reference at the bench.',
  to: { page: 'probe', probe: title },
})

test('thirty probes with the same fault are one entry with thirty names; another fault is another entry', () => {
  const made = alike([item('PH-1', 'not checked'), item('PH-2', 'cracked'), item('PH-3', 'not checked')])
  expect(made.map(({ titles }) => titles)).toEqual([['PH-1', 'PH-3'], ['PH-2']])
  expect(alike([])).toEqual([])
})
