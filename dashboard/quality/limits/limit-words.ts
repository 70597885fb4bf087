import { unitText } from '../../format.ts'
import { wordsOf } from '../../words-of.ts'

/** How a number of a limit is written: the unit after it, and by what power of ten it is larger than what is stored. */
export interface Writing {
  unit: string
  /** 2: a ratio of 0 to 1, written as 0 to 100 % */
  shift: 0 | 2
  isDuration: boolean
}

const LABELS: Record<string, string> = {
  failSpan: 'possible (outside: fail)',
  suspectSpan: 'likely (outside: suspect)',
  signalSpans: 'possible signal (outside: fail)',
  monthlySpans: 'usual, by month (outside: suspect)',
  differenceIs: 'the difference is',
  suspectDifference: 'suspect beyond',
  failDifference: 'fail beyond',
  suspectPerHour: 'suspect when faster than',
  baselineMs: 'compared with a reading so old',
  compares: 'compares',
  tolerance: 'counts as the same within',
  suspect: 'suspect after',
  fail: 'fail after',
  repeats: 'same readings in a row',
  durationMs: 'lasting at least',
  daylight: 'only by day, and only in light',
  sunAboveDegrees: 'sun higher than',
  judgedFromSignal: 'signal of at least',
  windowMs: 'looked at over',
  spreadIs: 'the spread is',
  suspectBelow: 'suspect when it spreads less than',
  failBelow: 'fail when it spreads less than',
  gapAfterIntervals: 'a gap after so many expected intervals',
  withinMs: 'neighbours’ readings within',
  withinMetres: 'neighbours within',
  fewestNeighbours: 'at least so many neighbours',
  allowedDifference: 'suspect beyond',
  allowedDeviations: 'and beyond so many times the neighbours’ own scatter',
  fullScaleCounts: 'full scale',
  smallerFullScaleCounts: 'full scales of smaller converters',
  flatTopReadings: 'believed after so many readings in a row',
  nothingAboveWithinMs: 'with nothing higher within',
  brightAtZeroLux: 'no counts at all mean at least',
  sunBelowDegrees: 'sun lower than',
  brighterThanLux: 'suspect when brighter than',
  railMillivolt: 'fail beyond',
  suspectNoiseMillivolt: 'suspect when it scatters by more than',
  failNoiseMillivolt: 'fail when it scatters by more than',
  creepMillivolt: 'suspect when it creeps by more than',
  largestStepShare: 'with no single step of more than this part of it',
  airAtOrBelow: 'may be in air at or below',
  leapAtLeast: 'was in soil when higher by',
  longestLiftMs: 'out of the soil for at most',
  lightFactor: 'fail when the light leaps so many times',
  lightWithinMs: 'with the light within',
  stillForMs: 'still for',
  neighbourAboveMetresPerSecond: 'suspect when the neighbour turns at',
  neighbourWithinMs: 'neighbour’s reading within',
  neighbourWithinMetres: 'neighbour within',
  impossibleHertz: 'fail beyond',
  countedWithinMs: 'pulses looked at one by one up to intervals of',
  gustOverMean: 'suspect when a gust is so many times the mean',
  gustAtLeastMetresPerSecond: 'and at least',
  fewestReadings: 'at least so many readings',
  possibleCelsius: 'possible (outside: fail)',
  shortedBelowOhm: 'a short circuit below',
  openAboveOhm: 'a broken wire above',
  noAnswerCelsius: 'no sensor answers',
  powerOnCelsius: 'not measured yet',
  realWithinCelsius: 'real when a neighbour is within',
  startedWithinMs: 'first after a start within',
  afterStartMs: 'looked at after a start for',
  suspectRiseCelsius: 'suspect when it climbs by',
}

/** A name without an entry is taken apart into its words. */
export function limitLabel(name: string): string {
  return LABELS[name] ?? wordsOf(name.replace(/Ms$/, '')).split(',')[0]!
}

const CHOICES: Record<string, string> = {
  absolute: 'in the unit of the quantity',
  share: 'a part of the neighbours’ mean',
  signal: 'the signal as sent',
  value: 'the value worked out',
  range: 'highest less lowest',
}

export function choiceLabel(choice: string): string {
  return CHOICES[choice] ?? choice
}

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
]

export function nameLabel(name: string): string {
  return MONTHS[Number(name) - 1] ?? name
}

/** Endings of names that carry a unit, the longer ones first. */
const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ['MetresPerSecond', 'm/s'],
  ['Millivolt', 'mV'],
  ['Celsius', '°C'],
  ['Degrees', '°'],
  ['Metres', 'm'],
  ['Counts', 'counts'],
  ['Hertz', 'Hz'],
  ['Lux', 'lx'],
  ['Ohm', 'Ω'],
]

/** Limits that are in the unit of the quantity, although their names do not say so. */
const IN_QUANTITY = new Set([
  ...['failSpan', 'suspectSpan', 'monthlySpans', 'suspectDifference', 'failDifference', 'suspectPerHour'],
  ...['suspectBelow', 'failBelow', 'allowedDifference', 'airAtOrBelow', 'leapAtLeast', 'tolerance'],
])

/**
 * How the numbers under a name are written.
 * @param unit  of the quantity, as stored
 * @param beside  the other limits of the same test: some say what another is measured in
 */
export function writingOf(name: string, unit: string, beside: Readonly<Record<string, unknown>>): Writing {
  if (name.endsWith('Ms')) return { unit: '', shift: 0, isDuration: true }
  const ending = UNITS.find(([each]) => name.endsWith(each))
  if (ending) return { unit: ending[1], shift: 0, isDuration: false }
  const isOther =
    (name.endsWith('Difference') && beside['differenceIs'] === 'share') ||
    (name === 'tolerance' && beside['compares'] === 'signal')
  if (!IN_QUANTITY.has(name) || isOther) return { unit: '', shift: 0, isDuration: false }
  const written = unitText(unit)
  const perHour = name.endsWith('PerHour') ? ' per hour' : ''
  return { unit: written + perHour, shift: written === '%' ? 2 : 0, isDuration: false }
}
