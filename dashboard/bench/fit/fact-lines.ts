import type { Fitted } from '../../../calibration/index.ts'
import { numberText } from '../../format.ts'

/** One thing a calibration found out, ready to be read. */
export interface FactLine {
  name: string
  label: string
  /** digits only; null when it cannot be known */
  digits: string | null
  unit: string
  number: number | null
  /** said after it, or in place of it */
  words: string
}

interface FactWords {
  label: string
  unit: string
  decimals: number
  isSigned?: boolean
  factor?: number
  words?: (facts: Fitted['facts']) => string
  unknown?: string
}

const shown = (value: unknown, decimals: number) =>
  typeof value === 'number' ? numberText(value, decimals) : '?'

/** In the order they are read out; a fact that is not here is for the program, not for the page. */
const WORDS: Readonly<Record<string, FactWords>> = {
  slopePercent: {
    label: 'Slope',
    unit: '% of the ideal',
    decimals: 1,
    unknown: 'cannot be known without the gain of the amplifier',
  },
  slopeMillivoltPerPh: {
    label: 'Slope in millivolts',
    unit: 'mV per pH',
    decimals: 2,
    words: (facts) =>
      `an ideal electrode gives ${shown(facts['theoreticalSlopeMillivoltPerPh'], 2)} at ${shown(facts['calibrationTemperatureCelsius'], 1)} °C`,
  },
  offsetMillivolt: { label: 'Offset at pH 7', unit: 'mV', decimals: 1, isSigned: true },
  zeroPointPh: { label: 'Gives 0 mV at', unit: 'pH', decimals: 2 },
  largestResidualPh: { label: 'Farthest point off the curve', unit: 'pH', decimals: 3 },
  largestCheckErrorPh: { label: 'Check buffer off by', unit: 'pH', decimals: 3 },
  drySignal: { label: 'Air-dry soil', unit: '', decimals: 0 },
  wetSignal: { label: 'Saturated soil', unit: '', decimals: 0 },
  spanSignal: { label: 'From dry to wet', unit: '', decimals: 0, isSigned: true },
  factor: { label: 'Side-by-side factor', unit: '', decimals: 3, words: () => 'the probe’s lux times this' },
  luxPerCount: { label: 'Light per count', unit: 'lx', decimals: 4 },
  fullScaleLux: { label: 'Saturates at', unit: 'lx', decimals: 0 },
  gamma: { label: 'Bend of the photoresistor', unit: '', decimals: 3 },
  luxPerSignal: { label: 'Light per step of signal', unit: 'lx', decimals: 3 },
  darkSignal: { label: 'Signal in the dark', unit: '', decimals: 1 },
  offsetCelsius: { label: 'Added to each reading', unit: '°C', decimals: 3, isSigned: true },
  iceReadingCount: { label: 'Points in melting ice', unit: '', decimals: 0 },
  iceScatterCelsius: { label: 'Their scatter', unit: '°C', decimals: 3 },
  secondPointResidualCelsius: { label: 'Second point off by', unit: '°C', decimals: 2, isSigned: true },
  offsetMetresPerSecond: { label: 'Offset', unit: 'm/s', decimals: 2, isSigned: true },
  slopeMetresPerSecondPerHertz: { label: 'Slope', unit: 'm/s per turn a second', decimals: 3 },
  startingThresholdMetresPerSecond: { label: 'Starts turning at', unit: 'm/s', decimals: 2 },
  soil: { label: 'Soil', unit: '', decimals: 0 },
  slope: { label: 'Slope', unit: 'per step of signal', decimals: 6 },
  intercept: { label: 'Value at signal 0', unit: '', decimals: 4 },
  bulkDensityGramPerCubicCentimetre: { label: 'Bulk density', unit: 'g/cm³', decimals: 2 },
  porosity: { label: 'Pore space', unit: '%', decimals: 1, factor: 100 },
  largestResidual: { label: 'Farthest point off the curve', unit: '', decimals: 3 },
  ohmAt25: { label: 'At 25 °C', unit: 'Ω', decimals: 0 },
}

/** The facts worth reading out, in words and with sensible digits. */
export function factLines(facts: Fitted['facts']): FactLine[] {
  return Object.entries(WORDS).flatMap(([name, words]): FactLine[] => {
    if (!(name in facts) || (OFF_THE_CURVE.has(name) && isThroughAll(facts))) return []
    const fact = facts[name]
    const line = { name, label: words.label, unit: words.unit, words: words.words?.(facts) ?? '' }
    if (typeof fact === 'string') return [{ ...line, digits: fact, number: null }]
    if (typeof fact !== 'number') {
      return words.unknown === undefined
        ? []
        : [{ ...line, digits: null, number: null, words: words.unknown }]
    }
    const number = fact * (words.factor ?? 1)
    const digits = numberText(number, words.decimals)
    return [{ ...line, number, digits: words.isSigned && number > 0 ? `+${digits}` : digits }]
  })
}

const OFF_THE_CURVE = new Set(['largestResidualPh', 'largestResidual'])

/** A line through two points misses neither: that says nothing about them. */
function isThroughAll(facts: Fitted['facts']): boolean {
  return (facts['bufferCount'] ?? facts['sampleCount'] ?? facts['pointCount']) === 2
}
