import { describe, expect, it } from 'vitest'
import { reasonsFor } from '../../dashboard/quality/by-hand/reasons.ts'
import { spanWarnings } from '../../dashboard/quality/by-hand/span-warnings.ts'
import { reasonWords } from '../../dashboard/quality/clean/reason-words.ts'
import { sentenceParts } from '../../dashboard/quality/clean/sentence-parts.ts'
import { pathTo, placeOf } from '../../dashboard/router.ts'
import { AddDecision } from '../../hub/contract/changes.ts'
import { qualityTestsListed } from '../../hub/http/quality-list.ts'

describe('sentenceParts', () => {
  const count = {
    all: 11_865,
    clean: 8811,
    leftOut: [
      { reason: 'spike', n: 1310 },
      { reason: 'excluded by hand', n: 11 },
      { reason: 'clock', n: 1 },
    ],
    sentence: 'Of 11,865 readings 8,811 are clean; left out: 1,310 spike, 11 excluded by hand, 1 clock.',
  }
  it('together are the hub’s sentence, cut at its reasons', () => {
    const parts = sentenceParts(count)
    expect(parts.map(({ text }) => text).join('')).toBe(count.sentence)
    expect(parts.flatMap(({ reason }) => reason ?? [])).toEqual(count.leftOut)
  })
  it('are the sentence alone when all readings are clean, or when it says it otherwise', () => {
    const sentence = 'Of 5 readings 5 are clean.'
    expect(sentenceParts({ all: 5, clean: 5, leftOut: [], sentence })).toEqual([
      { text: sentence, reason: null },
    ])
    expect(sentenceParts({ ...count, sentence: 'Ask again.' })).toEqual([
      { text: 'Ask again.', reason: null },
    ])
  })
})

describe('reasonWords', () => {
  const tests = qualityTestsListed()
  it('are those of the test, or of what else leaves a reading out', () => {
    for (const { name, title } of tests)
      expect(reasonWords(name, tests)).toMatchObject({ title, more: 'test' })
    for (const reason of [
      'not at a quadrat',
      'excluded by hand',
      'no passing calibration',
      'no value',
      'clock',
    ])
      expect(reasonWords(reason, tests).explain, reason).not.toBe('')
  })
  it('of a reason nobody knows are its name', () => {
    expect(reasonWords('new-test', tests)).toEqual({ title: 'new-test', explain: '', more: null })
  })
})

describe('by hand', () => {
  const decision = {
    probe: 'ph-1',
    from: '2026-06-12T09:10:00.000Z',
    to: '2026-06-12T09:20:00.000Z',
    action: 'exclude' as const,
  }
  it('every reason suggested is one the hub takes', () => {
    for (const quantity of [
      'soil_ph',
      'soil_moisture',
      'illuminance',
      'soil_temperature',
      'wind_speed',
      'my_own',
    ])
      for (const action of ['exclude', 'accept'] as const) {
        expect(reasonsFor(action, quantity).length).toBeGreaterThan(1)
        for (const reason of reasonsFor(action, quantity))
          expect(AddDecision.safeParse({ ...decision, action, reason }).success).toBe(true)
      }
  })
  it('warns of readings at another quadrat, and of a decision that is there already', () => {
    const placements = [
      { probe: 'ph-1', quadrat: 'Q1', from: '2026-06-12T09:00:00Z' },
      { probe: 'ph-1', quadrat: 'Q2', from: '2026-06-12T09:15:00Z' },
    ]
    const before = { ...decision, reason: 'cable pulled', id: 'd1', at: '2026-06-12T10:00:00Z' }
    expect(spanWarnings({ placements }, 'Q1', decision)[0]).toContain('Q2')
    expect(spanWarnings({ placements: [] }, 'Q1', decision)).toEqual([])
    expect(spanWarnings({ placements: [], decisions: [before] }, 'Q1', decision)[0]).toContain('d1')
    const takenBack = { ...before, takenBack: { at: '2026-06-12T11:00:00Z' } }
    expect(spanWarnings({ placements: [], decisions: [takenBack] }, 'Q1', decision)).toEqual([])
  })
})

describe('pages about quality', () => {
  it('have places in the notebook', () => {
    expect(placeOf(pathTo.quality('wood.1'))).toEqual({ page: 'quality', survey: 'wood.1' })
    expect(placeOf(pathTo.decisions('wood.1'))).toEqual({ page: 'decisions', survey: 'wood.1' })
    expect(pathTo.quality('wood.1', 'spike')).toBe('/survey/wood.1/quality#spike')
  })
})
