import { describe, expect, it } from 'vitest'
import { KeepPlan } from '../../../../hub/contract/plan-api.ts'
import { SurveyFile } from '../../../../hub/contract/survey.ts'
import { keepPlan, planChanges, quadratsInUse } from '../../../../hub/survey/plan/keep-plan.ts'
import { readSurveyFile } from '../../../../hub/survey/read-survey-file.ts'

const AT = Date.parse('2026-06-12T09:00:00Z')
const survey = SurveyFile.parse({
  tussockSurvey: 1,
  id: 'edge',
  title: 'Wood edge',
  site: { name: 'Hollow lane' },
  transects: [{ id: 'T1', lengthMetres: 20 }],
  quadrats: [1, 3, 5, 7].map((distanceMetres, index) => ({
    label: `Q${index + 1}`,
    transect: 'T1',
    distanceMetres,
  })),
  walk: ['Q1', 'Q2'],
  boards: [{ name: 'sedge-1' }],
  probes: [{ id: 'ph-1', quantity: 'soil_ph', method: { way: 'direct' }, board: 'sedge-1', channel: 'ph' }],
  placements: [{ probe: 'ph-1', quadrat: 'Q2', from: '2026-06-01T09:00:00Z' }],
})
const planOf = (part: object = {}): KeepPlan => {
  const { title, site, transects, quadrats, walk } = survey
  return KeepPlan.parse({ title, site, transects, quadrats, walk, ...part })
}
const without = (...labels: string[]) => survey.quadrats.filter(({ label }) => !labels.includes(label))

describe('keepPlan', () => {
  it('changes nothing when nothing is different', () => {
    const after = keepPlan(survey, planOf(), [], AT)
    expect(after).toEqual(survey)
    expect(planChanges(survey, after)).toEqual([])
  })
  it('keeps boards, probes and placements, and never touches the survey it was given', () => {
    const before = structuredClone(survey)
    const after = keepPlan(survey, planOf({ title: 'Hedge' }), [], AT)
    expect(after.title).toBe('Hedge')
    expect(after.placements).toEqual(survey.placements)
    expect(survey).toEqual(before)
    expect(planChanges(survey, after)).toEqual(['Changed: the title.'])
  })
  it('removes a quadrat nothing was placed or measured at', () => {
    const after = keepPlan(survey, planOf({ quadrats: without('Q4') }), [], AT)
    expect(after.quadrats).toEqual(without('Q4'))
    expect(planChanges(survey, after)).toEqual(['1 quadrat removed: Q4.'])
  })
  it('lifts one that has a placement, a trap or a spot reading instead of removing it', () => {
    const trapped = {
      ...survey,
      traps: [
        {
          id: 't1',
          method: 'pitfall trap',
          quadrat: 'Q3',
          setAt: '2026-06-01T09:00:00Z',
          checkWithinHours: 24,
          checks: [],
        },
      ],
    }
    const after = keepPlan(
      trapped,
      planOf({ quadrats: without('Q1', 'Q2', 'Q3', 'Q4'), walk: [] }),
      ['Q4'],
      AT,
    )
    expect(after.quadrats.map(({ label, lifted }) => [label, lifted?.reason])).toEqual([
      ['Q2', 'no longer in the plan'],
      ['Q3', 'no longer in the plan'],
      ['Q4', 'no longer in the plan'],
    ])
    expect(readSurveyFile(after).faults).toEqual([])
    expect(planChanges(trapped, after)).toContain(
      '3 quadrats lifted instead of removed, because something was placed or measured there: Q2, Q3, Q4.',
    )
    expect([...quadratsInUse(trapped, ['Q4'])].sort()).toEqual(['Q2', 'Q3', 'Q4'])
  })
  it('keeps the time and reason of one that was lifted before', () => {
    const lifted = { at: '2026-06-02T09:00:00.000Z', reason: 'trampled' }
    const before = {
      ...survey,
      quadrats: survey.quadrats.map((each) => (each.label === 'Q2' ? { ...each, lifted } : each)),
    }
    const after = keepPlan(before, planOf({ quadrats: without('Q2'), walk: [] }), [], AT)
    expect(after.quadrats.find(({ label }) => label === 'Q2')?.lifted).toEqual(lifted)
  })
  it('tells of added, moved, lifted and put-back quadrats', () => {
    const quadrats = [
      ...without('Q3', 'Q4'),
      { ...survey.quadrats[2]!, distanceMetres: 6 },
      { ...survey.quadrats[3]!, lifted: { at: '2026-06-12T09:00:00Z', reason: 'nest' } },
      { ...survey.quadrats[0]!, label: 'Q5', distanceMetres: 9 },
    ]
    const after = keepPlan(survey, planOf({ quadrats }), [], AT)
    expect(planChanges(survey, after)).toEqual([
      '1 quadrat added: Q5.',
      '1 quadrat at another place; what was measured there goes along: Q3.',
      '1 quadrat lifted: Q4.',
    ])
    expect(planChanges(after, keepPlan(after, planOf(), [], AT))).toContain('1 quadrat put back: Q4.')
  })
  it('takes away what is left out: days, rules, walk, groups', () => {
    const full = { ...survey, from: '2026-06-12', groups: [{ label: 'G1', quadrats: ['Q1'] }] }
    const after = keepPlan(full, planOf({ walk: [] }), [], AT)
    expect(after).not.toHaveProperty('from')
    expect(after).not.toHaveProperty('groups')
    expect(after).not.toHaveProperty('walk')
    expect(planChanges(full, after)).toEqual(['Changed: the first day, the order of visiting, the groups.'])
  })
  it('names twelve quadrats and counts the others', () => {
    const many = Array.from({ length: 20 }, (_, index) => ({
      ...survey.quadrats[0]!,
      label: `R${index + 1}`,
      distanceMetres: index,
    }))
    const after = keepPlan(survey, planOf({ quadrats: [...survey.quadrats, ...many] }), [], AT)
    expect(planChanges(survey, after)[0]).toMatch(/^20 quadrats added: R1, .*, R12 and 8 more\.$/)
  })
})
