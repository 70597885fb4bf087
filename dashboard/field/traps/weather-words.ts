import type { TrapWeather } from '../../../hub/contract/trap.ts'
import { numberText } from '../../format.ts'

/** What the hub's own thermometers say, and what they cannot say. */
export function weatherWords({ coldestCelsius, warmestCelsius }: TrapWeather): string {
  if (coldestCelsius === null || warmestCelsius === null)
    return 'No thermometer of this survey has been heard in the last hour, so the weather rule cannot work: watch the weather yourselves.'
  return `In the last hour the survey’s own thermometers read ${numberText(coldestCelsius, 1)} to ${numberText(warmestCelsius, 1)} °C. In the soil that is milder than the air: be stricter than the hub.`
}
