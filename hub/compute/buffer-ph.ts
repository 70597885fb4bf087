import { z } from 'zod'
import { bufferPh } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const bufferPhComputation = defineComputation({
  name: 'buffer-ph',
  title: 'pH of a calibration buffer at its measured temperature',
  source: 'Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200; technical buffer tables; JIS Z 8802:2011',
  units: { temperatureCelsius: '°C', ph: 'pH', standardUncertaintyPh: 'pH' },
  input: z.object({
    set: z.string(),
    buffer: z.union([z.string(), z.number().transform(String)]),
    temperatureCelsius: number,
  }),
  output: z.object({ ph: number, standardUncertaintyPh: number, source: z.string() }),
  run: (input) =>
    answer(bufferPh(input.set, input.buffer, input.temperatureCelsius), (buffer) => ({ ...buffer })),
})
