import type { Advice, Captured, Procedure } from '../../../calibration/index.ts'
import { countText } from '../../format.ts'

const PAIRS_WANTED = 10
const ICE_POINTS_WANTED = 5

/** What the points themselves tell beside the curve: too few of them, or kept in haste. */
export function moreAdvice(procedure: Procedure, points: readonly Captured[]): Advice[] {
  const fitted = points.filter(({ role }) => role === 'fit')
  const advice: Advice[] = []
  if (procedure.id === 'light-counts') {
    const pairs = fitted.filter(({ fields }) => (procedure.reference(fields)?.value ?? 0) > 0).length
    if (pairs > 0 && pairs < PAIRS_WANTED)
      advice.push({
        code: 'few-pairs',
        text: `${countText(pairs, 'pair')} so far; ${PAIRS_WANTED} or more are wanted before the factor can be trusted.`,
      })
  }
  if (procedure.id === 'ice-point') {
    const inIce = fitted.filter(({ fields }) => procedure.reference(fields)?.value === 0).length
    if (inIce < ICE_POINTS_WANTED)
      advice.push({
        code: 'few-ice-points',
        text:
          inIce === 0
            ? 'Without a point in melting ice the thermometer is taken as bought.'
            : `${countText(inIce, 'point')} in melting ice so far; keep ${ICE_POINTS_WANTED} or more.`,
      })
  }
  // a pH curve says this itself, and judges it
  const forced = procedure.id === 'ph-buffers' ? 0 : fitted.filter(({ isForced }) => isForced).length
  if (forced > 0)
    advice.push({
      code: 'kept-moving',
      text: `${countText(forced, 'point was', 'points were')} kept while the signal still moved. Hold longer and take ${forced === 1 ? 'it' : 'them'} again.`,
    })
  return advice
}
