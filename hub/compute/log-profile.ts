import { z } from 'zod'
import { windByLogProfile } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const logProfile = defineComputation({
  name: 'log-profile',
  title: 'Wind speed at one height from that at another, by the logarithmic profile',
  source: 'WMO-No. 8, Part I ch. 5, exposure correction',
  units: {
    metresPerSecond: 'm/s',
    fromMetres: 'm',
    toMetres: 'm',
    roughnessMetres: 'm, 0.03 when not given',
    displacementMetres: 'm, 0 when not given',
    atHeightMetresPerSecond: 'm/s',
  },
  input: z.object({
    metresPerSecond: number,
    fromMetres: number,
    toMetres: number,
    roughnessMetres: number.optional(),
    displacementMetres: number.optional(),
  }),
  output: z.object({ atHeightMetresPerSecond: number }),
  run({ metresPerSecond, fromMetres, toMetres, roughnessMetres, displacementMetres }) {
    const profile = {
      fromMetres,
      toMetres,
      ...(roughnessMetres === undefined ? {} : { roughnessMetres }),
      ...(displacementMetres === undefined ? {} : { displacementMetres }),
    }
    return answer(windByLogProfile(metresPerSecond, profile), (speed) => ({ atHeightMetresPerSecond: speed }))
  },
})
