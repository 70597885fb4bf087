import { z } from 'zod'
import { windFromPulses } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const cupWind = defineComputation({
  name: 'cup-wind',
  title: 'Wind speed from pulses of a cup anemometer',
  source: 'ISO 17713-1:2007; IEC 61400-12-1, annex on cup anemometer calibration',
  units: {
    pulses: 'count',
    seconds: 's',
    offsetMetresPerSecond: 'm/s',
    slopeMetresPerSecondPerHertz: 'm/s per Hz',
    metresPerSecond: 'm/s',
  },
  input: z.object({
    pulses: number,
    seconds: number,
    offsetMetresPerSecond: number,
    slopeMetresPerSecondPerHertz: number,
  }),
  output: z.object({ metresPerSecond: number, calm: z.boolean() }),
  run: ({ pulses, seconds, ...factor }) => answer(windFromPulses(pulses, seconds, factor), (wind) => wind),
})
