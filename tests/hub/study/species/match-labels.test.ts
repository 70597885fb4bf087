import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { matchLabels } from '../../../../hub/study/species/match-labels.ts'
import { isNumberOnly, looksLikeQuadrat, quadratKey } from '../../../../hub/study/species/quadrat-label.ts'

const survey = Array.from({ length: 10 }, (_, place) => `Q${place + 1}`)
const typed = ['q1', 'Q 2', 'Quadrat 3', 'Q04', '05', 'Q6 ', 'Q7', 'Q8', 'Q9', 'Q1O']

describe('A13 ten labels, typed by four groups', () => {
  // domain map, story A13: common practice
  test('9 matched, 1 suggested, none dropped', () => {
    const labels = matchLabels(survey, typed)
    expect(labels.matched).toHaveLength(9)
    expect(labels.matched.find((match) => match.typed === '05')!.repair).toContain('number only')
    expect(labels.matched.find((match) => match.typed === 'Q7')!.repair).toBeNull()
    expect(labels.suggested).toEqual([{ typed: 'Q1O', survey: 'Q10', why: expect.any(String) }])
    expect(labels.unmatchedTyped).toEqual([])
    expect(labels.unmatchedSurvey).toEqual([])
    expect(labels.questions.map(({ id }) => id)).toEqual(['confirm:Q1O'])
  })
  test('confirmed, 10 are joined; said no, both sides are left over', () => {
    expect(matchLabels(survey, typed, { confirmed: { Q1O: 'Q10' } }).matched).toHaveLength(10)
    const no = matchLabels(survey, typed, { confirmed: { Q1O: 'no' } })
    expect([no.unmatchedTyped, no.unmatchedSurvey, no.questions]).toEqual([['Q1O'], ['Q10'], []])
  })
  test('two labels of one quadrat stop it and ask', () => {
    const both = { confirmed: { Q1O: 'Q10' } }
    const labels = matchLabels(survey, [...typed, 'Q10'], both)
    expect(labels.doubled).toEqual([{ survey: 'Q10', typed: ['Q1O', 'Q10'] }])
    expect(labels.matched).toHaveLength(9)
    const chosen = matchLabels(survey, [...typed, 'Q10'], { ...both, chosen: { Q10: 'Q10' } })
    expect([chosen.matched.length, chosen.unmatchedTyped]).toEqual([10, ['Q1O']])
  })
})

test('look-alikes l/1, I/1 and S/5 are suggested too, never matched', () => {
  // common practice, no source
  const labels = matchLabels(['Q1', 'Q5', 'Q11'], ['Ql', 'QS', 'Q1I'])
  expect(labels.suggested.map((pair) => `${pair.typed}=${pair.survey}`)).toEqual([
    'Ql=Q1',
    'QS=Q5',
    'Q1I=Q11',
  ])
  expect(labels.matched).toEqual([])
})

test.each([
  ['Quad-07', '7'],
  ['ＱＵＡＤＲＡＴ　０７', '7'],
  ["'=Q1", '1'],
  ['q', 'q'],
  ['A012', 'a12'],
  ['Q100', '100'],
  ['0', '0'],
])('%s comes down to %s', (label, key) => {
  expect(quadratKey(label)).toBe(key)
})

test('what looks like a quadrat, and what does not', () => {
  expect(['Q1', 'quadrat 12', 'Plot 3a', '7', 'A4', '3.5', 'Q1O'].map(looksLikeQuadrat)).toEqual(
    Array(7).fill(true),
  )
  expect(['Ivy', 'Bare ground', 'Cladsp', 'soil', 'Q'].map(looksLikeQuadrat)).toEqual(Array(5).fill(false))
  expect(['05', '１２', 'Q5'].map(isNumberOnly)).toEqual([true, true, false])
})

test('every label of both sides is in exactly one list, whatever is typed', () => {
  const label = fc.constantFrom(
    'Q1',
    'q1',
    'Q01',
    '1',
    'Ql',
    'QI',
    'Q1O',
    'Q10',
    'Q5',
    'QS',
    'north',
    'Q6',
    'Q9',
  )
  fc.assert(
    fc.property(fc.uniqueArray(label), fc.uniqueArray(label), (known, written) => {
      const labels = matchLabels(known, written)
      const onTyped = [labels.matched, labels.suggested].flat().map((pair) => pair.typed)
      expect(
        [...onTyped, ...labels.doubled.flatMap((pair) => pair.typed), ...labels.unmatchedTyped].sort(),
      ).toEqual([...written].sort())
      const onSurvey = [labels.matched, labels.suggested, labels.doubled].flat().map((pair) => pair.survey)
      expect(new Set([...onSurvey, ...labels.unmatchedSurvey])).toEqual(new Set(known))
    }),
  )
})
