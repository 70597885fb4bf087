import { STEADY_RULES, type SteadyRule } from '../../../../calibration/index.ts'
import { notebook, type Sentence } from '../links.ts'
import { quantityLabel } from '../quantity-name.ts'
import type { ReportFacts } from '../report-facts.ts'
import { lengthText } from '../time-text.ts'

const UNITS: Readonly<Record<string, string>> = {
  soil_ph: '\u00a0pH',
  illuminance: '\u00a0lx',
  soil_temperature: '\u00a0°C',
}

/** When a carried meter counted as steady, for the quantities that were carried. */
export function steadinessSentences({ survey, spots }: ReportFacts): Sentence[] {
  const carried = [...new Set(spots.filter(({ spot }) => !spot.isTyped).map(({ quantity }) => quantity))]
  return carried.flatMap((quantity) => {
    const rule = STEADY_RULES[quantity]
    if (!rule) return []
    return [{ text: ruleText(quantity, rule), href: notebook.carry(survey.id) }]
  })
}

function ruleText(quantity: string, rule: SteadyRule): string {
  const unit = UNITS[quantity] ?? ''
  const share = rule.relativeSpan === undefined ? '' : ` (or ${100 * rule.relativeSpan}\u00a0% of their mean)`
  const rate =
    rule.ratePerMinute === undefined
      ? ''
      : ` and changed by no more than ${rule.ratePerMinute}${unit} per minute`
  return `${quantityLabel(quantity)} of a carried meter counted as steady when the newest ${lengthText(rule.windowSeconds)} (at least ${rule.minimumSamples} readings) lay within ${rule.span}${unit}${share}${rate}.`
}
