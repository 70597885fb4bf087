import { z } from 'zod'
import { Quadrat } from '../contract/survey.ts'
import { shareAmongGroups } from '../survey/plan/share-among-groups.ts'
import { adviseWalk, type JudgedWalk } from '../survey/plan/walk.ts'
import { defineComputation } from './computation.ts'
import { advice, number } from './fields.ts'

const walk = z.object({ words: z.string(), labels: z.array(z.string()), metres: number, strongest: number })

export const walkOrder = defineComputation({
  name: 'walk-order',
  title: 'Does the order of visiting follow the tape, and which short order does not?',
  source: 'Spearman 1904, Am. J. Psychol. 15, 72–101; limits 0.6 and 0.3 are common practice',
  units: {
    'planned.metres': 'm from quadrat to quadrat',
    'planned.strongest': 'rank correlation, 0–1, without its sign',
    'proposed.metres': 'm',
  },
  input: z.object({
    /** in the order of visiting */
    quadrats: z.array(Quadrat).min(1),
    groups: z.array(z.string().min(1)).default([]),
  }),
  output: z.object({
    planned: walk,
    warnings: advice,
    proposed: walk.nullable(),
    others: z.array(walk),
    shares: z.array(z.object({ group: z.string(), walk })),
  }),
  run({ quadrats, groups }) {
    const { planned, warnings, proposed, others } = adviseWalk(quadrats)
    const shares = groups.length === 0 ? [] : shareAmongGroups(quadrats, groups)
    return {
      planned: shaped(planned),
      warnings,
      proposed: proposed && shaped(proposed),
      others: others.map(shaped),
      shares: shares.map((share) => ({ group: share.group, walk: shaped(share.walk) })),
    }
  },
})

function shaped({ words, labels, metres, strongest }: JudgedWalk) {
  return { words, labels, metres, strongest }
}
