import { z } from 'zod'
import { celsiusFromWord } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const digitalTemperature = defineComputation({
  name: 'digital-temperature',
  title: 'Temperature from the 16-bit word of a digital thermometer',
  source: 'DS18B20 data sheet, temperature/data relationship table',
  units: { word: 'hexadecimal text or whole number, 1/16 °C per step', celsius: '°C' },
  input: z.object({ word: z.union([z.string(), number]) }),
  output: z.object({ celsius: number }),
  run: ({ word }) => answer(celsiusFromWord(word), (celsius) => ({ celsius })),
})
