import { fitAlreadyAValue } from './curves/already-a-value.ts'
import { fitCupAnemometer } from './curves/cup-anemometer.ts'
import { fitDigitalTemperature } from './curves/digital-temperature.ts'
import { fitLightCounts } from './curves/light-counts.ts'
import { fitLightPower } from './curves/light-power.ts'
import { fitLightSpan } from './curves/light-span.ts'
import { fitLineRecipe } from './curves/line.ts'
import { fitPermittivity } from './curves/permittivity.ts'
import { fitPhElectrode } from './curves/ph-electrode.ts'
import { fitPlatinum } from './curves/platinum.ts'
import { fitThermistor } from './curves/thermistor.ts'
import { fitWaterContent } from './curves/water-content.ts'
import { fitWetnessSpan } from './curves/wetness-span.ts'
import { firstNotFinite } from './fit/finite.ts'
import type { Fitted } from './fitted.ts'
import type { Recipe } from './recipe.ts'
import { refuseShape } from './recipe-shape.ts'
import { type Refusal, refuse } from './refusal.ts'

/**
 * A recipe to a fitted calibration: reference points or settings in, signal ⇄ value with uncertainty out.
 * @returns a refusal when no curve can be drawn; a curve that should not be used has verdict `fail` and advice
 */
export function fitCalibration(recipe: Recipe): Fitted | Refusal {
  const wrong = refuseShape(recipe)
  if (wrong !== null) return wrong
  const path = firstNotFinite(recipe)
  if (path !== null) return refuse('E_NOT_FINITE', `${path} is not a number. Type it again.`)
  switch (recipe.kind) {
    case 'ph-electrode':
      return fitPhElectrode(recipe)
    case 'wetness-span':
      return fitWetnessSpan(recipe)
    case 'water-content-fit':
      return fitWaterContent(recipe)
    case 'permittivity':
      return fitPermittivity(recipe)
    case 'light-counts':
      return fitLightCounts(recipe)
    case 'light-power':
      return fitLightPower(recipe)
    case 'light-span':
      return fitLightSpan(recipe)
    case 'digital-temperature':
      return fitDigitalTemperature(recipe)
    case 'thermistor':
      return fitThermistor(recipe)
    case 'platinum':
      return fitPlatinum(recipe)
    case 'cup-anemometer':
      return fitCupAnemometer(recipe)
    case 'line':
      return fitLineRecipe(recipe)
    case 'already-a-value':
      return fitAlreadyAValue(recipe)
  }
}
