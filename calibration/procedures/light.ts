import { sideBySideFactor } from '../curves/side-by-side.ts'
import { fitCalibration } from '../fit-calibration.ts'
import type { LightCountsRecipe } from '../recipe.ts'
import { isRefusal } from '../refusal.ts'
import {
  type Captured,
  type Field,
  type Fields,
  GROUP_RULES,
  given,
  numberOf,
  type Procedure,
  textOf,
} from './procedure.ts'

const cautions = [
  'Never look into the sun, nor let a reference meter sit in it longer than the reading takes.',
  GROUP_RULES,
]
const lux: Field = {
  name: 'lux',
  label: 'Reference meter',
  unit: 'lx',
  kind: 'number',
  isRequired: true,
  hint: '0 for a covered sensor',
}
const steady = { windowSeconds: 2, minimumSamples: 2, span: 2, relativeSpan: 0.1 }

function reference(fields: Fields) {
  const value = numberOf(fields, 'lux')
  return value === undefined ? null : { value, name: value === 0 ? 'covered sensor' : 'reference meter' }
}

/** A digital sensor by its published formula, and the factor that makes it agree with a reference meter beside it. */
export const lightCounts: Procedure = {
  id: 'light-counts',
  quantity: 'illuminance',
  title: 'Digital light sensor beside a reference meter',
  gives: 'illuminance by the sensor’s published formula, times the factor found beside the reference',
  steps: [
    'Set the probe and the reference meter side by side, level, under an even open sky.',
    'Keep ten pairs or more while clouds change the light a little.',
    'Cover the sensor once and keep that as 0 lx. Without any pair the published formula stands alone.',
  ],
  cautions,
  signalUnits: ['count'],
  perPoint: [lux],
  settings: [
    {
      name: 'sensor',
      label: 'Sensor',
      unit: '',
      kind: 'choice',
      choices: [{ value: 'bh1750', label: 'bh1750' }],
      isRequired: true,
      start: 'bh1750',
    },
    {
      name: 'mtreg',
      label: 'Measurement time register',
      unit: '',
      kind: 'number',
      isRequired: false,
      hint: '69 unless the sketch sets another',
    },
    {
      name: 'mode',
      label: 'Resolution mode',
      unit: '',
      kind: 'choice',
      choices: [
        { value: '1', label: 'high resolution' },
        { value: '2', label: 'high resolution mode 2' },
      ],
      isRequired: true,
      start: '1',
    },
  ],
  fewestPoints: 0,
  steady,
  recipe(points, settings) {
    const bare: LightCountsRecipe = {
      kind: 'light-counts',
      sensor: 'bh1750',
      ...given({
        mtreg: numberOf(settings, 'mtreg'),
        mode: textOf(settings, 'mode') === '2' ? (2 as const) : undefined,
      }),
    }
    return { ...bare, ...sideBySide(bare, points) }
  },
  reference,
}

function sideBySide(bare: LightCountsRecipe, points: readonly Captured[]): Partial<LightCountsRecipe> {
  const fitted = fitCalibration(bare)
  if (isRefusal(fitted)) return {}
  const read = points.flatMap(({ signal, fields, role }) => {
    const value = fitted.valueAt(signal)
    const referenceLux = numberOf(fields, 'lux')
    if (role === 'check' || isRefusal(value) || referenceLux === undefined) return []
    return [{ probeLux: value.value, referenceLux, saturated: value.remarks.includes('saturated') }]
  })
  const dark = read.filter(({ referenceLux }) => referenceLux === 0).at(-1)
  const factor = sideBySideFactor(read.filter(({ referenceLux }) => referenceLux > 0))
  return given({
    factor: isRefusal(factor) ? undefined : factor.factor,
    factorRelativeStandardUncertainty: isRefusal(factor)
      ? undefined
      : (factor.relativeStandardUncertainty ?? undefined),
    darkLux: dark?.probeLux,
  })
}

/** A photoresistor against a reference meter: straight on paper with logarithmic axes. */
export const photoresistor: Procedure = {
  id: 'photoresistor',
  quantity: 'illuminance',
  title: 'Photoresistor against a reference meter',
  gives: 'illuminance by a straight line through log signal and log lux',
  steps: [
    'Set the probe and the reference meter side by side, level.',
    'Keep points from deep shade to open light, at least three, spread over the range you will meet.',
  ],
  cautions,
  signalUnits: ['count', 'mV', 'V', 'Ohm'],
  perPoint: [lux],
  settings: [
    {
      name: 'fullScaleSignal',
      label: 'Full scale of the converter',
      unit: '',
      kind: 'number',
      isRequired: false,
    },
  ],
  fewestPoints: 2,
  steady,
  recipe: (points, settings) => ({
    kind: 'light-power',
    points: lightPoints(points),
    ...given({ fullScaleSignal: numberOf(settings, 'fullScaleSignal') }),
  }),
  reference,
}

/** A light sensor with a straight answer, in the dark and in the light. */
export const lightSpan: Procedure = {
  id: 'light-span',
  quantity: 'illuminance',
  title: 'Dark and light, against a reference meter',
  gives: 'illuminance by a straight line through the points',
  steps: [
    'Cover the sensor and keep that as 0 lx.',
    'Then keep points in light, beside the reference meter.',
  ],
  cautions,
  signalUnits: ['count', 'mV', 'V'],
  perPoint: [lux],
  settings: [
    {
      name: 'fullScaleSignal',
      label: 'Full scale of the converter',
      unit: '',
      kind: 'number',
      isRequired: false,
    },
    {
      name: 'referenceFullScaleLux',
      label: 'Full scale of the reference meter',
      unit: 'lx',
      kind: 'number',
      isRequired: false,
    },
  ],
  fewestPoints: 2,
  steady,
  recipe: (points, settings) => ({
    kind: 'light-span',
    points: lightPoints(points),
    ...given({
      fullScaleSignal: numberOf(settings, 'fullScaleSignal'),
      referenceFullScaleLux: numberOf(settings, 'referenceFullScaleLux'),
    }),
  }),
  reference,
}

function lightPoints(points: readonly Captured[]) {
  return points
    .filter(({ role }) => role === 'fit')
    .map(({ signal, fields }) => ({ signal, lux: numberOf(fields, 'lux') ?? Number.NaN }))
}
