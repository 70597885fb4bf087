import { bufferPh } from '../references/buffer-ph.ts'
import { BUFFER_SETS } from '../references/ph-buffers.ts'
import { isRefusal } from '../refusal.ts'
import { type Captured, GROUP_RULES, given, numberOf, type Procedure, textOf } from './procedure.ts'

/** Two or three buffers, each held until the electrode is steady: the offset and the slope of a pH electrode. */
export const phBuffers: Procedure = {
  id: 'ph-buffers',
  quantity: 'soil_ph',
  title: 'pH buffers',
  gives: 'pH of the soil or slurry the bulb stands in',
  steps: [
    'Rinse the bulb with distilled water and blot it; do not rub.',
    'Stand it in fresh buffer, poured out for today, together with the thermometer.',
    'Wait until it is steady, then keep the point. Never pour buffer back.',
    'Take two buffers that lie on either side of your soil. Keep a third one as a check.',
  ],
  cautions: [
    'Wear goggles. Rinse splashes of buffer off skin and bench with water.',
    'The bulb is thin glass: lift it by the cap.',
    GROUP_RULES,
  ],
  signalUnits: ['mV', 'V'],
  perPoint: [
    {
      name: 'bufferSet',
      label: 'Buffer set',
      unit: '',
      kind: 'choice',
      choices: BUFFER_SETS.map(({ set, title }) => ({ value: set, label: title })),
      isRequired: true,
      start: 'technical',
      hint: 'printed on the bottle; sets differ in the second decimal',
    },
    {
      name: 'buffer',
      label: 'Buffer',
      unit: '',
      kind: 'text',
      isRequired: false,
      hint: '4, 7 or 10, or its substance',
    },
    {
      name: 'ph',
      label: 'pH printed for this temperature',
      unit: 'pH',
      kind: 'number',
      isRequired: false,
      hint: 'wins over the table',
    },
    {
      name: 'temperatureCelsius',
      label: 'Temperature of the buffer',
      unit: '°C',
      kind: 'number',
      isRequired: true,
    },
    { name: 'lot', label: 'Lot', unit: '', kind: 'text', isRequired: false },
    { name: 'expires', label: 'Use by', unit: '', kind: 'date', isRequired: false },
  ],
  settings: [
    {
      name: 'gain',
      label: 'Gain of the amplifier',
      unit: '',
      kind: 'number',
      isRequired: false,
      hint: 'leave empty if the board sends the electrode’s own mV',
    },
    { name: 'biasMillivolt', label: 'Bias of the amplifier', unit: 'mV', kind: 'number', isRequired: false },
    {
      name: 'signalIs',
      label: 'The signal is',
      unit: '',
      kind: 'choice',
      choices: [
        { value: 'electrode', label: 'the electrode’s mV, or gain and bias are known' },
        { value: 'amplified-unknown-gain', label: 'amplified, and the gain is not known' },
      ],
      isRequired: true,
      start: 'electrode',
    },
    {
      name: 'soilLow',
      label: 'Lowest pH expected in the field',
      unit: 'pH',
      kind: 'number',
      isRequired: false,
    },
    {
      name: 'soilHigh',
      label: 'Highest pH expected in the field',
      unit: 'pH',
      kind: 'number',
      isRequired: false,
    },
  ],
  fewestPoints: 2,
  // 0.02 pH is about 1.2 mV; four readings at 5 s steps
  steady: { windowSeconds: 15, minimumSamples: 4, span: 1.2 },
  recipe(points, settings) {
    const gain = numberOf(settings, 'gain')
    const low = numberOf(settings, 'soilLow')
    const high = numberOf(settings, 'soilHigh')
    return {
      kind: 'ph-electrode',
      points: points.map(phPoint),
      ...(textOf(settings, 'signalIs') === 'amplified-unknown-gain'
        ? { signalIs: 'amplified-unknown-gain' as const }
        : {}),
      ...(gain === undefined
        ? {}
        : { amplifier: { gain, biasMillivolt: numberOf(settings, 'biasMillivolt') ?? 0 } }),
      ...(low === undefined || high === undefined ? {} : { soilPh: { low, high } }),
    }
  },
  reference(fields) {
    const typed = numberOf(fields, 'ph')
    const set = textOf(fields, 'bufferSet')
    const buffer = textOf(fields, 'buffer')
    const name = [set, buffer === undefined ? undefined : `pH ${buffer}`]
      .filter((part) => part !== undefined)
      .join(' ')
    if (typed !== undefined) return { value: typed, name: `${name || 'buffer'}, value from the bottle` }
    const celsius = numberOf(fields, 'temperatureCelsius')
    if (set === undefined || buffer === undefined || celsius === undefined) return null
    const found = bufferPh(set, buffer, celsius)
    return isRefusal(found) ? null : { value: found.ph, name: `${name} buffer` }
  },
}

function phPoint({ signal, scatter, n, isForced, secondsToSteady, fields, role }: Captured) {
  return {
    millivolt: signal,
    temperatureCelsius: numberOf(fields, 'temperatureCelsius') ?? Number.NaN,
    ...given({
      bufferSet: textOf(fields, 'bufferSet'),
      buffer: textOf(fields, 'buffer'),
      ph: numberOf(fields, 'ph'),
      lot: textOf(fields, 'lot'),
      expires: textOf(fields, 'expires'),
      scatterMillivolt: scatter ?? undefined,
      n,
      secondsToStable: secondsToSteady ?? undefined,
      forced: isForced || undefined,
      role: role === 'check' ? ('check' as const) : undefined,
    }),
  }
}
