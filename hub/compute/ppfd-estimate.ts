import { z } from 'zod'
import { estimatePpfd } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const ppfdEstimate = defineComputation({
  name: 'ppfd-estimate',
  title: 'Photosynthetic photon flux density from illuminance, indicative only',
  source: 'Thimijan & Heins 1983, HortScience 18(6), 818–822',
  units: {
    lux: 'lx',
    ppfdMicromolPerM2S: 'µmol m⁻² s⁻¹',
    lowMicromolPerM2S: 'µmol m⁻² s⁻¹',
    highMicromolPerM2S: 'µmol m⁻² s⁻¹',
  },
  input: z.object({
    lux: number,
    source: z
      .enum([
        'sun_and_sky',
        'blue_sky_only',
        'metal_halide',
        'high_pressure_sodium',
        'cool_white_fluorescent',
        'incandescent',
      ])
      .optional(),
  }),
  output: z.object({
    ppfdMicromolPerM2S: number,
    lowMicromolPerM2S: number,
    highMicromolPerM2S: number,
    isIndicativeOnly: z.literal(true),
  }),
  run: ({ lux, source }) => answer(estimatePpfd(lux, source), (estimate) => ({ ...estimate })),
})
