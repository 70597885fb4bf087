import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { refuseLevel, refuseNumbers } from './check-numbers.ts'
import { midRanks } from './mid-ranks.ts'
import { ascending, quantileOfSorted } from './quantile.ts'
import { rankCorrelation } from './rank-correlation.ts'
import { refuse } from './refusals.ts'
import { normalDraws } from './seeded-draws.ts'
import { spearman } from './spearman.ts'
import { spearmanPOf } from './spearman-p.ts'

const MOST_WORK = 5_000_000

export interface RedrawQuestion {
  /** the measured factor */
  x: readonly number[]
  /** the species */
  y: readonly number[]
  /** of each x by itself, k = 1, in the unit of x: one for all, or one each */
  independentStandardUncertainty: number | readonly number[]
  /** common to all x, k = 1: one draw moves them all. It cannot change their order */
  sharedStandardUncertainty?: number
  /** 1000 when not given */
  redraws?: number
  /** 1 when not given; the same seed gives the same answer */
  seed?: number
  /** of significance, 0.05 when not given */
  level?: number
}

export interface RedrawRobustness {
  /** of the values as measured */
  rho: number | null
  p: number | null
  redraws: number
  /** 0–1: redraws in which the correlation was significant, with the sign it has as measured; null when rho is */
  significantShare: number | null
  /** rho in the middle redraw, and the span of the middle 95 % of them */
  medianRho: number | null
  lowRho: number | null
  highRho: number | null
}

/**
 * How often a Spearman correlation stays significant when every x is drawn anew within its standard uncertainty.
 * Ranks are not moved by what is common to all x (one probe, one calibration): only what differs from x to x counts.
 * @returns refusal `E_UNPAIRED`, `E_TOO_FEW`, `E_NOT_FINITE`, `E_NEGATIVE`, `E_LEVEL`, `E_TOO_MANY`
 * @see JCGM 101:2008 §5.9–7: propagation of distributions by the Monte Carlo method
 */
export function redrawRobustness(question: RedrawQuestion): RedrawRobustness | Refusal {
  const { x, y, sharedStandardUncertainty = 0, redraws = 1000, seed = 1, level = 0.05 } = question
  const measured = spearman(x, y)
  if (isRefusal(measured)) return measured
  const given = question.independentStandardUncertainty
  const own = typeof given === 'number' ? x.map(() => given) : given
  const wrong = refuseLevel(level) ?? refuseUncertainties(own, sharedStandardUncertainty, x.length)
  if (wrong !== null) return wrong
  if (!Number.isInteger(redraws) || redraws < 1) {
    return refuse('E_NOT_WHOLE', `“redraws” is ${redraws}; it is a whole number, 1 or more.`)
  }
  if (redraws * x.length > MOST_WORK) {
    return refuse('E_TOO_MANY', `${redraws} redraws of ${x.length} values take too long; ask for fewer.`)
  }
  const { rho, p } = measured
  if (rho === null) {
    return { rho, p, redraws, significantShare: null, medianRho: null, lowRho: null, highRho: null }
  }
  const draw = normalDraws(seed)
  const yRanks = midRanks(y)
  const pOf = spearmanPOf(yRanks)
  const drawn: number[] = []
  let significant = 0
  for (let k = 0; k < redraws; k++) {
    const shift = sharedStandardUncertainty * draw()
    const xRanks = midRanks(x.map((value, at) => value + shift + own[at]! * draw()))
    const again = rankCorrelation(xRanks, yRanks)
    if (again === null) continue
    drawn.push(again)
    if (again * rho > 0 && pOf(again, xRanks) <= level) significant++
  }
  const sorted = ascending(drawn)
  const at = (share: number) => (sorted.length === 0 ? null : quantileOfSorted(sorted, share))
  const spread = { medianRho: at(0.5), lowRho: at(0.025), highRho: at(0.975) }
  return { rho, p, redraws, significantShare: significant / redraws, ...spread }
}

function refuseUncertainties(own: readonly number[], shared: number, n: number): Refusal | null {
  if (own.length !== n) {
    return refuse(
      'E_UNPAIRED',
      `There are ${own.length} uncertainties for ${n} values; give one for all, or one each.`,
    )
  }
  const wrong = refuseNumbers([...own, shared], 'uncertainty')
  if (wrong !== null) return wrong
  const below = [...own, shared].find((each) => each < 0)
  return below === undefined
    ? null
    : refuse('E_NEGATIVE', `A standard uncertainty is 0 or more, not ${below}.`)
}
