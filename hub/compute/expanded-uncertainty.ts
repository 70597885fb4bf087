import { z } from 'zod'
import { combine, coverageFactor, refuse } from '../../calibration/index.ts'
import { defineComputation, finiteOrNull } from './computation.ts'
import { number } from './fields.ts'

const source = z.object({
  standardUncertainty: number.nonnegative(),
  /** null or absent: endless */
  degreesOfFreedom: number.positive().nullable().optional(),
})

export const expandedUncertaintyComputation = defineComputation({
  name: 'expanded-uncertainty',
  title: 'Sources of uncertainty to one interval with a level of confidence',
  source: 'JCGM 100:2008 §5.1.2, G.3.2, G.4.1 eq. G.2b',
  units: {
    'sources.standardUncertainty': 'the quantity’s, k = 1',
    level: '0–1, 0.95 when not given',
    standardUncertainty: 'the quantity’s',
    degreesOfFreedom: 'effective; null: endless',
    coverageFactor: '1',
    expandedUncertainty: 'the quantity’s, ±',
  },
  input: z.object({
    sources: z.array(source).optional(),
    standardUncertainty: number.nonnegative().optional(),
    degreesOfFreedom: number.positive().nullable().optional(),
    level: number.gt(0).lt(1).optional(),
  }),
  output: z.object({
    standardUncertainty: number,
    degreesOfFreedom: number.nullable(),
    coverageFactor: number,
    expandedUncertainty: number,
  }),
  run({ sources, standardUncertainty, degreesOfFreedom, level = 0.95 }) {
    const all =
      sources ?? (standardUncertainty === undefined ? [] : [{ standardUncertainty, degreesOfFreedom }])
    if (all.length === 0) return refuse('E_POINTS_FEW', 'Give “sources”, or “standardUncertainty”.')
    const combined = combine(
      all.map((each) => ({
        standardUncertainty: each.standardUncertainty,
        degreesOfFreedom: each.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
      })),
    )
    const k = coverageFactor(combined.degreesOfFreedom, level)
    return {
      standardUncertainty: combined.standardUncertainty,
      degreesOfFreedom: finiteOrNull(combined.degreesOfFreedom),
      coverageFactor: k,
      expandedUncertainty: k * combined.standardUncertainty,
    }
  },
})
