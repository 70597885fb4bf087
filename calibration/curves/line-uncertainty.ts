import type { CalibrationLine, LineVariances } from '../fit/calibration-line.ts'
import { emptyVariances } from '../fit/calibration-line.ts'
import type { BudgetLine } from '../fitted.ts'
import type { SharedTerms } from '../recipe.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { statedTerms } from '../uncertainty/stated-terms.ts'

/** Turns the variances of a fitted line, and what the recipe states besides, into value uncertainty and budget. */
export interface LineUncertainty {
  /** combined standard uncertainty at x (NaN when it cannot be known), its degrees of freedom into `lastDegreesOfFreedom` */
  at(x: number, scale: number, extraVariance: number): number
  lastDegreesOfFreedom(): number
  budget(x: number, scale: number): BudgetLine[]
}

/**
 * @param terms  signal resolution in signal units; drift in value units
 * `scale` turns x units into value units (1 unless the curve reads at another temperature).
 */
export function lineUncertainty(calibration: CalibrationLine, terms: SharedTerms): LineUncertainty {
  const scratch: LineVariances = emptyVariances()
  const step =
    terms.signalResolution === undefined ? 0 : fromStep(terms.signalResolution / calibration.line.slope)
  const drift = terms.driftStandardUncertainty ?? 0
  let lastDof = Number.POSITIVE_INFINITY
  return {
    at(x, scale, extraVariance) {
      if (!calibration.uncertaintyKnown) {
        lastDof = Number.POSITIVE_INFINITY
        return Number.NaN
      }
      calibration.variancesAt(x, scratch)
      const own = scratch.total * scale * scale
      const total = own + step * step * scale * scale + drift * drift + extraVariance
      lastDof =
        own > 0 ? scratch.totalDegreesOfFreedom * (total / own) * (total / own) : Number.POSITIVE_INFINITY
      return Math.sqrt(total)
    },
    lastDegreesOfFreedom: () => lastDof,
    budget(x, scale) {
      const lines: BudgetLine[] = []
      if (calibration.uncertaintyKnown) {
        calibration.variancesAt(x, scratch)
        const add = (name: BudgetLine['name'], variance: number, degreesOfFreedom: number) => {
          if (variance > 0)
            lines.push({ name, standardUncertainty: Math.sqrt(variance) * scale, degreesOfFreedom })
        }
        add('reference', scratch.reference, Number.POSITIVE_INFINITY)
        add('fit', scratch.fit, scratch.fitDegreesOfFreedom)
        add('repeatability', scratch.repeatability, scratch.repeatabilityDegreesOfFreedom)
      }
      lines.push(...statedTerms({ resolution: step * scale, drift }))
      return lines
    },
  }
}
