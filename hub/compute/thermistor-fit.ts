import { z } from 'zod'
import { fitSteinhartHart } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const thermistorFit = defineComputation({
  name: 'thermistor-fit',
  title: 'Steinhart–Hart coefficients through three points',
  source: 'Steinhart & Hart 1968, Deep-Sea Research 15(4), 497–503',
  units: { 'points.ohm': 'Ω', 'points.celsius': '°C', a: '1/K', b: '1/K', c: '1/K' },
  input: z.object({ points: z.array(z.object({ ohm: number, celsius: number })).length(3) }),
  output: z.object({ a: number, b: number, c: number }),
  run: ({ points }) => answer(fitSteinhartHart(points), (fit) => ({ ...fit })),
})
