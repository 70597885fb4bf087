import { given, numberOf, type Procedure, textOf } from './procedure.ts'

const unit = { name: 'unit', label: 'Unit of the value', unit: '', kind: 'text' as const, isRequired: true }
const steady = { windowSeconds: 15, minimumSamples: 3, span: 0, relativeSpan: 0.02 }

function reference(fields: Readonly<Record<string, string | number>>) {
  const value = numberOf(fields, 'reference')
  return value === undefined ? null : { value, name: 'reference' }
}

const perPoint = [
  { name: 'reference', label: 'Reference', unit: '', kind: 'number' as const, isRequired: true },
  {
    name: 'standardUncertainty',
    label: 'Its standard uncertainty',
    unit: '',
    kind: 'number' as const,
    isRequired: false,
  },
]

/** Any other probe with a straight answer. */
export const straightLine: Procedure = {
  id: 'straight-line',
  quantity: '',
  title: 'Straight line through reference points',
  gives: 'the value of whatever the reference points are in',
  steps: ['Bring the probe to two or more known values, and keep a point at each.'],
  cautions: [],
  signalUnits: [],
  perPoint,
  settings: [unit],
  fewestPoints: 2,
  steady,
  recipe: (points, settings) => ({
    kind: 'line',
    unit: textOf(settings, 'unit') ?? '',
    points: points
      .filter(({ role }) => role === 'fit')
      .map(({ signal, scatter, n, fields }) => ({
        signal,
        reference: numberOf(fields, 'reference') ?? Number.NaN,
        ...given({
          standardUncertainty: numberOf(fields, 'standardUncertainty'),
          scatter: scatter ?? undefined,
          n,
        }),
      })),
  }),
  reference,
}

/** The board sends the value itself. */
export const valueFromBoard: Procedure = {
  id: 'value-from-board',
  quantity: '',
  title: 'The board sends the value itself',
  gives: 'what the board says, unchanged',
  steps: ['Nothing to fit. State an uncertainty if the maker gives one.'],
  cautions: [],
  signalUnits: [],
  perPoint,
  settings: [
    unit,
    { name: 'offset', label: 'To be added', unit: '', kind: 'number', isRequired: false },
    {
      name: 'standardUncertainty',
      label: 'Standard uncertainty',
      unit: '',
      kind: 'number',
      isRequired: false,
    },
  ],
  fewestPoints: 0,
  steady,
  recipe: (_points, settings) => ({
    kind: 'already-a-value',
    unit: textOf(settings, 'unit') ?? '',
    ...given({
      offset: numberOf(settings, 'offset'),
      standardUncertainty: numberOf(settings, 'standardUncertainty'),
    }),
  }),
  reference,
}
