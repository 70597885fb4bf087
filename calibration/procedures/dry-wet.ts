import { GROUP_RULES, given, type Procedure, textOf } from './procedure.ts'

/** Air-dry and saturated soil of the site: relative wetness, 0 to 1. */
export const dryWet: Procedure = {
  id: 'dry-wet',
  quantity: 'soil_moisture',
  title: 'Air-dry and saturated soil',
  gives: 'relative wetness, 0 at air-dry to 1 at saturated: not a water content',
  steps: [
    'Fill one pot with air-dry soil of the site and one with the same soil under water, drained.',
    'Push the probe in to its line, in firm contact, twice in each pot.',
    'Keep one point in the dry and one in the wet soil.',
  ],
  cautions: ['Keep the electronics above the line dry.', 'Wash your hands after handling soil.', GROUP_RULES],
  signalUnits: ['count', 'mV', 'V'],
  perPoint: [
    {
      name: 'end',
      label: 'The soil is',
      unit: '',
      kind: 'choice',
      choices: [
        { value: 'dry', label: 'air-dry' },
        { value: 'wet', label: 'saturated' },
      ],
      isRequired: true,
    },
  ],
  settings: [],
  fewestPoints: 2,
  steady: { windowSeconds: 5, minimumSamples: 3, span: 4, relativeSpan: 0.01 },
  recipe(points) {
    const at = (end: string) => points.findLast(({ fields, role }) => role === 'fit' && fields['end'] === end)
    const dry = at('dry')
    const wet = at('wet')
    return {
      kind: 'wetness-span',
      drySignal: dry?.signal ?? Number.NaN,
      wetSignal: wet?.signal ?? Number.NaN,
      ...given({
        dryScatter: dry?.scatter ?? undefined,
        wetScatter: wet?.scatter ?? undefined,
        n: dry && wet ? Math.min(dry.n, wet.n) : undefined,
      }),
    }
  },
  reference(fields) {
    const end = textOf(fields, 'end')
    if (end === 'dry') return { value: 0, name: 'air-dry soil' }
    return end === 'wet' ? { value: 1, name: 'saturated soil' } : null
  },
}
