import { quantityFacts } from '../../hub/contract/quantity-facts.ts'

import type { Probe, SurveyFile } from '../../hub/contract/survey.ts'

/** The unit a meter is read in: that of the newest calibration that says so, otherwise the quantity’s own. */
export function typedUnit(survey: Pick<SurveyFile, 'calibrations'>, probe: Probe): string {
  const newest = survey.calibrations
    .filter((calibration) => calibration.probe === probe.id && !calibration.withdrawn)
    .sort((one, other) => Date.parse(one.validFrom) - Date.parse(other.validFrom))
    .at(-1)
  const recipe = newest?.recipe
  return recipe && 'unit' in recipe ? recipe.unit : (quantityFacts(probe.quantity)?.unit ?? '')
}
