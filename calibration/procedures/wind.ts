import { type Fields, GROUP_RULES, given, numberOf, type Procedure } from './procedure.ts'

const cautions = [
  'Keep fingers, hair and cords away from spinning cups and fans.',
  'Guy the mast, and take it down when thunder is near or the wind is high.',
  GROUP_RULES,
]
const signalUnits = ['Hz', 'count']
const steady = { windowSeconds: 60, minimumSamples: 4, span: 0.5, relativeSpan: 0.3 }
const countSeconds = {
  name: 'countSeconds',
  label: 'Seconds in each count',
  unit: 's',
  kind: 'number' as const,
  isRequired: false,
  hint: 'when the board sends pulse counts, not Hz',
}
const startingThreshold = {
  name: 'startingThresholdMetresPerSecond',
  label: 'Starting threshold',
  unit: 'm/s',
  kind: 'number' as const,
  isRequired: false,
}

function reference(fields: Fields) {
  const value = numberOf(fields, 'metresPerSecond')
  return value === undefined ? null : { value, name: value === 0 ? 'still air' : 'trusted anemometer' }
}

/** Cups beside a trusted anemometer: offset and slope fitted through the pairs. */
export const cupPairs: Procedure = {
  id: 'cup-pairs',
  quantity: 'wind_speed',
  title: 'Cups beside a trusted anemometer',
  gives: 'wind speed by the line through the pairs',
  steps: [
    'Set the cups and the trusted anemometer at the same height, a metre apart, in the open.',
    'Keep pairs of ten-minute means from light to fresh wind, at least three.',
  ],
  cautions,
  signalUnits,
  perPoint: [
    { name: 'metresPerSecond', label: 'Trusted anemometer', unit: 'm/s', kind: 'number', isRequired: true },
  ],
  settings: [startingThreshold, countSeconds],
  fewestPoints: 2,
  steady,
  recipe(points, settings) {
    const seconds = numberOf(settings, 'countSeconds')
    return {
      kind: 'cup-anemometer',
      pairs: points
        .filter(({ role }) => role === 'fit')
        .map(({ signal, fields }) => ({
          hertz: seconds === undefined ? signal : signal / seconds,
          metresPerSecond: numberOf(fields, 'metresPerSecond') ?? Number.NaN,
        })),
      ...given({
        startingThresholdMetresPerSecond: numberOf(settings, 'startingThresholdMetresPerSecond'),
        countSeconds: seconds,
      }),
    }
  },
  reference,
}

/** The factor on the anemometer's own sheet. */
export const cupSheet: Procedure = {
  id: 'cup-sheet',
  quantity: 'wind_speed',
  title: 'Factor from the cups’ own sheet',
  gives: 'wind speed by the stated offset and slope',
  steps: [
    'Type the offset and slope from the sheet.',
    'Cover the cups for a minute: there must be no pulse.',
  ],
  cautions,
  signalUnits,
  perPoint: [
    {
      name: 'metresPerSecond',
      label: 'True wind',
      unit: 'm/s',
      kind: 'number',
      isRequired: true,
      hint: '0 for covered cups',
    },
  ],
  settings: [
    { name: 'offsetMetresPerSecond', label: 'Offset', unit: 'm/s', kind: 'number', isRequired: true },
    {
      name: 'slopeMetresPerSecondPerHertz',
      label: 'Slope',
      unit: 'm/s per Hz',
      kind: 'number',
      isRequired: true,
    },
    startingThreshold,
    {
      name: 'standardUncertaintyMetresPerSecond',
      label: 'Standard uncertainty, if stated',
      unit: 'm/s',
      kind: 'number',
      isRequired: false,
    },
    countSeconds,
  ],
  fewestPoints: 0,
  steady,
  recipe: (_points, settings) => ({
    kind: 'cup-anemometer',
    ...given({
      offsetMetresPerSecond: numberOf(settings, 'offsetMetresPerSecond'),
      slopeMetresPerSecondPerHertz: numberOf(settings, 'slopeMetresPerSecondPerHertz'),
      startingThresholdMetresPerSecond: numberOf(settings, 'startingThresholdMetresPerSecond'),
      standardUncertaintyMetresPerSecond: numberOf(settings, 'standardUncertaintyMetresPerSecond'),
      countSeconds: numberOf(settings, 'countSeconds'),
    }),
  }),
  reference,
}
