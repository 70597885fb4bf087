import { describe, expect, test } from 'vitest'
import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import { sensorRail } from '../../../hub/quality/sensor-rail.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, seriesOf } from './series.ts'

const config = sensorRail.defaults['soil_temperature']!
const flags = (signal: number[], value: (number | null)[], signalUnit: string) =>
  sensorRail
    .run(seriesOf(value, { signal, signalUnit }), config, alone())
    .map((finding) => (finding === 'not evaluated' ? 2 : (finding?.flag ?? 1)))

/** °C of a 10 kΩ thermistor in a divider, by the calibration house. */
function thermistor(fullScaleCounts: number) {
  const fitted = fitCalibration({
    kind: 'thermistor',
    beta: { ohmAt25: 10_000, betaKelvin: 3950 },
    divider: { seriesOhm: 10_000, fullScaleCounts },
  })
  if (isRefusal(fitted)) throw new Error(fitted.message)
  return (counts: number) => {
    const answer = fitted.valueAt(counts)
    return isRefusal(answer) ? null : answer.value
  }
}

// Common practice, no source.
describe('a thermistor with a broken or shorted wire', () => {
  test.each([1023, 4095])(
    'a divider of %i counts: both rails fail, one count inside passes the range of soil',
    (full) => {
      const celsius = thermistor(full)
      const signal = [0, full / 2, full]
      expect(flags(signal, signal.map(celsius), 'count')).toEqual([4, 1, 4])
    },
  )

  test('1023 is the rail of ten bits and a warm day of twelve', () => {
    expect(flags([1023], [thermistor(1023)(1023)], 'count')).toEqual([4])
    expect(flags([1023], [thermistor(4095)(1023)], 'count')).toEqual([1])
  })

  test('below, at, at and above the limits of resistance', () => {
    expect(flags([19.9, 20, 2_000_000, 2_000_001], [0, 0, 0, 0], 'Ohm')).toEqual([4, 1, 1, 4])
  })

  test('°C have no rail; without a value a count in between is not evaluated', () => {
    expect(flags([-127], [-127], 'Cel')).toEqual([2])
    expect(flags([0, 500, 1023], [null, null, null], 'count')).toEqual([4, 2, 4])
  })

  test('finds simulated breaks of a loose plug with precision and recall of at least 0.95', () => {
    const celsius = thermistor(1023)
    const runs = Array.from({ length: 8 }, (_, seed) => {
      const chance = seeded(seed)
      const isFaulty = Array.from({ length: 1000 }, () => chance.uniform() < 0.1)
      const signal = isFaulty.map((is) =>
        is ? 1023 * Math.round(chance.uniform()) : Math.round(620 + 40 * chance.normal()),
      )
      const series = seriesOf(signal.map(celsius), { signal, signalUnit: 'count' })
      return { isFaulty, findings: sensorRail.run(series, config, alone()) }
    })
    const { precision, recall } = scoreOf(runs, 4)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
