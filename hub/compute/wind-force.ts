import { z } from 'zod'
import { windForce } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const windForceComputation = defineComputation({
  name: 'wind-force',
  title: 'Force of the wind on the Beaufort scale',
  source: 'WMO-No. 8, Beaufort equivalents at 10 m',
  units: { metresPerSecond: 'm/s at 10 m over open ground', force: '0–12' },
  input: z.object({ metresPerSecond: number }),
  output: z.object({ force: number, name: z.string() }),
  run: (input) => answer(windForce(input.metresPerSecond), ({ force, name }) => ({ force, name })),
})
