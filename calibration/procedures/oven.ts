import { soilWater } from '../curves/gravimetric.ts'
import { isRefusal } from '../refusal.ts'
import { type Fields, GROUP_RULES, given, numberOf, type Procedure, textOf } from './procedure.ts'

/** Rings of the site's soil, read by the probe, weighed, dried in the oven and weighed again: water content. */
export const oven: Procedure = {
  id: 'oven',
  quantity: 'soil_moisture',
  title: 'Oven-dried samples',
  gives: 'volumetric water content, m³ of water per m³ of this soil',
  steps: [
    'Pack the site’s own soil into a ring of known volume, once fairly dry and once wet; a third ring is a check.',
    'Read the probe in each ring, then weigh the soil with its tin.',
    'Dry at 105 °C for 24 h to constant mass (peaty soil at 60 to 70 °C), and weigh again.',
  ],
  cautions: [
    'The oven and hot tins are for staff: tongs and gloves.',
    'Wash your hands after handling soil.',
    GROUP_RULES,
  ],
  signalUnits: ['count', 'mV', 'V'],
  perPoint: [
    { name: 'wetGram', label: 'Wet soil with tin', unit: 'g', kind: 'number', isRequired: true },
    { name: 'dryGram', label: 'Dry soil with tin', unit: 'g', kind: 'number', isRequired: true },
    { name: 'tinGram', label: 'Tin', unit: 'g', kind: 'number', isRequired: true },
    {
      name: 'ringCubicCentimetre',
      label: 'Volume of the ring',
      unit: 'cm³',
      kind: 'number',
      isRequired: true,
    },
  ],
  settings: [
    {
      name: 'soil',
      label: 'Which soil',
      unit: '',
      kind: 'text',
      isRequired: true,
      hint: 'woodland leaf mould, meadow clay …',
    },
    {
      name: 'degree',
      label: 'Curve',
      unit: '',
      kind: 'choice',
      choices: [
        { value: '1', label: 'straight line' },
        { value: '2', label: 'bent (quadratic, from four samples)' },
      ],
      isRequired: true,
      start: '1',
    },
    {
      name: 'organic',
      label: 'Kind of soil',
      unit: '',
      kind: 'choice',
      choices: [
        { value: 'no', label: 'mineral' },
        { value: 'yes', label: 'peat or leaf mould' },
      ],
      isRequired: true,
      start: 'no',
    },
  ],
  fewestPoints: 2,
  steady: { windowSeconds: 5, minimumSamples: 3, span: 4, relativeSpan: 0.01 },
  recipe(points, settings) {
    return {
      kind: 'water-content-fit',
      soil: textOf(settings, 'soil') ?? 'soil of the site',
      degree: textOf(settings, 'degree') === '2' ? 2 : 1,
      ...(textOf(settings, 'organic') === 'yes' ? { organic: true } : {}),
      samples: points.map(({ signal, fields, role }) => ({
        signal,
        ...masses(fields),
        ...given({ role: role === 'check' ? ('check' as const) : undefined }),
      })),
    }
  },
  reference(fields) {
    const water = soilWater(masses(fields))
    return isRefusal(water) ? null : { value: water.volumetricWaterContent, name: 'oven-dried sample' }
  },
}

function masses(fields: Fields) {
  const gram = (name: string) => numberOf(fields, name) ?? Number.NaN
  return {
    wetGram: gram('wetGram'),
    dryGram: gram('dryGram'),
    tinGram: gram('tinGram'),
    ringCubicCentimetre: gram('ringCubicCentimetre'),
  }
}
