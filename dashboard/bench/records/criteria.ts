import { DEFAULT_PH_CRITERIA, type Recipe } from '../../../calibration/index.ts'

/** The limits behind a verdict, in words. Those that are fixed inside a curve are held to it by a test. */
export function criteriaWords(recipe: Recipe): string[] {
  switch (recipe.kind) {
    case 'ph-electrode':
      return phWords({ ...DEFAULT_PH_CRITERIA, ...recipe.criteria })
    case 'wetness-span':
      return ['dry and wet differ by at least ten times the scatter of the signal']
    case 'water-content-fit':
      return ['no sample more than 0.03 m³/m³ off the curve; up to 0.05 with a warning']
    case 'light-counts':
      return ['side-by-side factor 0.9 to 1.1; beyond with a warning', 'covered sensor at most 5 lx']
    case 'digital-temperature':
      return [
        'offset at most 0.5 °C; up to 1.0 °C with a warning',
        'second point within 0.3 °C, beyond with a warning',
      ]
    case 'cup-anemometer':
      return recipe.pairs
        ? ['pairs lie on the line with a correlation of at least 0.95']
        : ['taken from its sheet, not judged']
    default:
      return ['no limits: every curve that can be drawn passes']
  }
}

function phWords(limits: typeof DEFAULT_PH_CRITERIA): string[] {
  return [
    `slope ${limits.slopePassLowPercent} to ${limits.slopePassHighPercent} % of the ideal; ${limits.slopeWarnLowPercent} to ${limits.slopeWarnHighPercent} with a warning`,
    `offset at pH 7 within ${limits.offsetPassMillivolt} mV; ${limits.offsetWarnMillivolt} with a warning`,
    `check buffer and residuals within ${limits.checkPassPh} pH; ${limits.checkWarnPh} with a warning`,
    `steady within ${limits.stablePassSeconds} s; ${limits.stableWarnSeconds} with a warning`,
    `buffers at least ${limits.bufferSpanPassPh} pH apart`,
  ]
}
