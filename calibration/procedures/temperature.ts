import {
  type Captured,
  type Field,
  type Fields,
  GROUP_RULES,
  given,
  numberOf,
  type Procedure,
} from './procedure.ts'

const celsius: Field = {
  name: 'celsius',
  label: 'True temperature',
  unit: '°C',
  kind: 'number',
  isRequired: true,
  hint: '0 for melting ice; otherwise by the class thermometer',
}
const cautions = ['Crushed ice and glass: mind cuts and wet floors. No hot water above 50 °C.', GROUP_RULES]

function reference(fields: Fields) {
  const value = numberOf(fields, 'celsius')
  return value === undefined ? null : { value, name: value === 0 ? 'melting ice' : 'class thermometer' }
}

/** Melting ice is 0 °C: the offset of a digital thermometer, and a second point to see that it holds. */
export const icePoint: Procedure = {
  id: 'ice-point',
  quantity: 'soil_temperature',
  title: 'Melting ice',
  gives: 'temperature, with the offset found in melting ice taken off',
  steps: [
    'Fill a flask with crushed ice and a little water, and stir.',
    'Stand the tip 5 cm deep for three minutes, then keep five points or more.',
    'Near 20 °C, beside the class thermometer, keep one more: it is checked, not fitted.',
    'Without any point the thermometer is taken as bought.',
  ],
  cautions,
  signalUnits: ['Cel', 'count'],
  perPoint: [celsius],
  settings: [],
  fewestPoints: 0,
  steady: { windowSeconds: 60, minimumSamples: 4, span: 0.125, ratePerMinute: 0.1 },
  recipe(points) {
    const inIce = points.filter(({ fields, role }) => role === 'fit' && numberOf(fields, 'celsius') === 0)
    const second = points.findLast(({ fields }) => (numberOf(fields, 'celsius') ?? 0) !== 0)
    return {
      kind: 'digital-temperature',
      ...given({
        icePoint: inIce.length > 0 ? inIce.map(({ signal }) => signal) : undefined,
        secondPoint: second
          ? { reading: second.signal, reference: numberOf(second.fields, 'celsius') ?? Number.NaN }
          : undefined,
      }),
    }
  },
  reference,
}

/** Three temperatures and the thermistor's resistance at each: the Steinhart–Hart equation. */
export const thermistorPoints: Procedure = {
  id: 'thermistor',
  quantity: 'soil_temperature',
  title: 'Thermistor at three temperatures',
  gives: 'temperature by the Steinhart–Hart equation',
  steps: [
    'Stand the thermistor beside the class thermometer in melting ice, in cool water and in warm water, stirred.',
    'Wait three minutes each time, and keep one point in each.',
  ],
  cautions,
  signalUnits: ['Ohm', 'count'],
  perPoint: [celsius],
  settings: [
    {
      name: 'seriesOhm',
      label: 'Series resistor of the divider',
      unit: 'Ω',
      kind: 'number',
      isRequired: false,
      hint: 'when the board sends counts',
    },
    {
      name: 'fullScaleCounts',
      label: 'Full scale of the converter',
      unit: '',
      kind: 'number',
      isRequired: false,
      hint: '1023 for ten bits',
    },
  ],
  fewestPoints: 3,
  steady: { windowSeconds: 60, minimumSamples: 4, span: 2, relativeSpan: 0.005 },
  recipe(points, settings) {
    const seriesOhm = numberOf(settings, 'seriesOhm')
    const fullScaleCounts = numberOf(settings, 'fullScaleCounts')
    const divider =
      seriesOhm === undefined || fullScaleCounts === undefined ? undefined : { seriesOhm, fullScaleCounts }
    return {
      kind: 'thermistor',
      points: fitted(points).map(({ signal, fields }) => ({
        ohm: divider ? (divider.seriesOhm * signal) / (divider.fullScaleCounts - signal) : signal,
        celsius: numberOf(fields, 'celsius') ?? Number.NaN,
      })),
      ...given({ divider }),
    }
  },
  reference,
}

function fitted(points: readonly Captured[]): readonly Captured[] {
  return points.filter(({ role }) => role === 'fit')
}
