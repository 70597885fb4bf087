import type { QualityTestListed } from '../../../hub/contract/quality.ts'

export interface ReasonWords {
  title: string
  explain: string
  /** the page that shows more of it */
  more: 'test' | 'decisions' | 'bench' | 'boards' | null
}

/** Reasons that are no test of a series: where a reading stood, what was decided, what its calibration remarked. */
const OTHERS: Record<string, ReasonWords> = {
  'not at a quadrat': {
    title: 'Not at a quadrat',
    explain:
      'The probe was being carried, or nobody had said yet where it stands. Put it in place, from the time on at which it stood there, and its readings follow.',
    more: 'boards',
  },
  'excluded by hand': {
    title: 'Left out by hand',
    explain:
      'Somebody of the class saw that something happened to the measuring, and wrote down what. It can be taken back.',
    more: 'decisions',
  },
  'no passing calibration': {
    title: 'No passing calibration',
    explain:
      'At that time the probe had no calibration that passed, so its signal could not be turned into a value that one may trust. Calibrate it on the bench; earlier readings follow where the calibration holds.',
    more: 'bench',
  },
  'no value': {
    title: 'No value',
    explain: 'A signal came, but its calibration gives no value for it.',
    more: 'bench',
  },
  clock: {
    title: 'Clock wrong',
    explain:
      'The board sent a time that cannot be, so the time kept is that of arrival. The value may be right, its moment is not certain. Set the board’s clock or change its battery.',
    more: 'boards',
  },
  signal: {
    title: 'Signal of the wrong kind',
    explain: 'The board sent something that this probe’s calibration cannot work with, such as another unit.',
    more: 'bench',
  },
  saturated: {
    title: 'Sensor at its end',
    explain:
      'The light sensor was at its full scale: the true light was at least this bright, and nobody knows how much more.',
    more: null,
  },
  extrapolated: {
    title: 'Outside the calibration',
    explain:
      'The signal lies outside the span between the reference points, where the curve is only a guess. Calibrate with points on both sides.',
    more: 'bench',
  },
  impossible: {
    title: 'Value that cannot be',
    explain:
      'The calibration gives a value that nature does not have. Look at the wire and at the calibration.',
    more: 'bench',
  },
  'fault-code': {
    title: 'Fault code',
    explain: 'The sensor sent the number by which it says “something is broken” instead of a measurement.',
    more: null,
  },
  'sensor-open': {
    title: 'Broken wire',
    explain: 'The signal is that of a wire with nothing at its end.',
    more: null,
  },
  'sensor-shorted': {
    title: 'Short circuit',
    explain: 'The signal is that of two wires touching each other.',
    more: null,
  },
}

/** What a reason means, whether it is the name of a test or another one. */
export function reasonWords(reason: string, tests: readonly QualityTestListed[]): ReasonWords {
  const test = tests.find(({ name }) => name === reason)
  if (test) return { title: test.title, explain: test.explain, more: 'test' }
  return OTHERS[reason] ?? { title: reason, explain: '', more: null }
}
