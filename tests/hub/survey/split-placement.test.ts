import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Placement, SurveyFile } from '../../../hub/contract/survey.ts'
import { HubError } from '../../../hub/errors.ts'
import { amendPlacement, overlappingPlacements } from '../../../hub/survey/placements.ts'
import { splitPlacement } from '../../../hub/survey/split-placement.ts'
import { exampleSurvey } from '../../support/example-survey.ts'

// expected values follow from the times as written

const at = (clock: string) => `2026-06-12T${clock}:00.000Z`
const placed = (quadrat: string | null, from: string, to?: string): Placement => ({
  probe: 'ph-1',
  quadrat,
  from: at(from),
  ...(to === undefined ? {} : { to: at(to) }),
})
const surveyOf = (...placements: Placement[]): SurveyFile => ({ ...exampleSurvey(), placements })
const split = (
  survey: SurveyFile,
  begins: string,
  when: string,
  part: 'before' | 'after',
  quadrat: string | null,
) =>
  amendPlacement(survey, {
    probe: 'ph-1',
    begins: at(begins),
    split: { at: at(when), part, quadrat },
    reason: 'nobody pressed next',
  }).placements

test('nobody pressed next at 10:42: from then on it was at Q2, up to the end it had', () => {
  expect(split(surveyOf(placed('Q1', '10:00', '11:00')), '10:00', '10:42', 'after', 'Q2')).toEqual([
    placed('Q1', '10:00', '10:42'),
    placed('Q2', '10:42', '11:00'),
  ])
})

test('a part that touches the same quadrat moves the border instead of leaving a crumb, in both directions', () => {
  const survey = surveyOf(placed('Q1', '10:00', '10:50'), placed('Q2', '10:50'))
  expect(split(survey, '10:00', '10:42', 'after', 'Q2')).toEqual([
    placed('Q1', '10:00', '10:42'),
    placed('Q2', '10:42'),
  ])
  expect(split(survey, '10:50', '11:05', 'before', 'Q1')).toEqual([
    placed('Q1', '10:00', '11:05'),
    placed('Q2', '11:05'),
  ])
})

test('another probe at that quadrat is left alone', () => {
  const other = { ...placed('Q2', '10:42', '11:00'), probe: 'ph-2' }
  const after = split(surveyOf(placed('Q1', '10:00', '11:00'), other), '10:00', '10:42', 'after', 'Q2')
  expect(after).toContainEqual(other)
  expect(after).toHaveLength(3)
})

test.each(['09:59', '10:00', '11:00', '11:01'])(
  'a cut at %s is not within 10:00 to 11:00 and is refused',
  (when) => {
    expect(() => split(surveyOf(placed('Q1', '10:00', '11:00')), '10:00', when, 'after', 'Q2')).toThrow(
      HubError,
    )
  },
)

test('a correction says one thing: to set and to cut at once is refused', () => {
  const wish = { probe: 'ph-1', begins: at('10:00'), reason: 'both at once', set: { quadrat: 'Q2' } }
  const cut = { at: at('10:42'), part: 'after', quadrat: 'Q2' } as const
  expect(() => amendPlacement(surveyOf(placed('Q1', '10:00')), { ...wish, split: cut })).toThrow(/Say either/)
})

test('whatever is cut, the time that was covered stays covered once', () => {
  const minute = fc.integer({ min: 1, max: 119 })
  fc.assert(
    fc.property(
      minute,
      minute,
      fc.constantFrom('before', 'after'),
      fc.constantFrom('Q1', 'Q2', null),
      (border, cut, part, quadrat) => {
        fc.pre(cut !== border)
        const atMinute = (minutes: number) =>
          new Date(Date.parse(at('10:00')) + minutes * 60_000).toISOString()
        const list: Placement[] = [
          { probe: 'ph-1', quadrat: 'Q1', from: atMinute(0), to: atMinute(border) },
          { probe: 'ph-1', quadrat: 'Q2', from: atMinute(border), to: atMinute(120) },
        ]
        const after = splitPlacement(surveyOf(...list), cut < border ? 0 : 1, {
          at: atMinute(cut),
          part: part as 'before' | 'after',
          quadrat,
        })
        expect(overlappingPlacements(after.placements)).toEqual([])
        const covered = after.placements.reduce(
          (sum, { from, to }) => sum + Date.parse(to!) - Date.parse(from),
          0,
        )
        expect(covered).toBe(120 * 60_000)
      },
    ),
  )
})
