import { expect, test } from 'vitest'
import { knownInterval } from '../../dashboard/study/summary/known-interval.ts'

// JCGM 100:2008 G.1.3: 95 % of a normal distribution lie within 1.96 standard deviations
test.each([
  [
    { expanded: 0.3, probeUncertainty: 0.1, methodUncertainty: 0.15 },
    { half: 0.3, part: '' },
  ],
  [
    { expanded: 0.0006, probeUncertainty: null, methodUncertainty: null },
    { half: 0.0006, part: 'spread alone' },
  ],
  [
    { expanded: null, probeUncertainty: null, methodUncertainty: null },
    { half: null, part: '' },
  ],
  [
    { expanded: null, probeUncertainty: 0.3, methodUncertainty: null },
    { half: 1.96 * 0.3, part: 'probe alone' },
  ],
  [
    { expanded: null, probeUncertainty: 0.03, methodUncertainty: 0.04 },
    { half: 1.96 * 0.05, part: 'probe alone' },
  ],
] as const)('%j is shown as %j', (summary, shown) => {
  expect(knownInterval(summary)).toEqual({
    half: shown.half === null ? null : expect.closeTo(shown.half, 12),
    part: shown.part,
  })
})
