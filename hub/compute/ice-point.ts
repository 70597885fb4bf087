import { z } from 'zod'
import { fitIcePoint } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const icePoint = defineComputation({
  name: 'ice-point',
  title: 'Offset of a thermometer from its readings in melting ice',
  source: 'ITS-90: air-saturated ice melts at 0.00 °C',
  units: { readings: '°C', offsetCelsius: '°C', scatterCelsius: '°C' },
  input: z.object({ readings: z.array(number) }),
  output: z.object({ offsetCelsius: number, scatterCelsius: number }),
  run: ({ readings }) => answer(fitIcePoint(readings), (ice) => ({ ...ice })),
})
