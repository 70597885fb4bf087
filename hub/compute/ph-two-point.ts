import { z } from 'zod'
import { fitCalibration, isRefusal, type PhPoint } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { advice, number, verdict } from './fields.ts'

const point = z.object({
  millivolt: number,
  ph: number.optional(),
  bufferSet: z.string().optional(),
  buffer: z.string().optional(),
  temperatureCelsius: number.optional(),
  role: z.enum(['fit', 'check']).optional(),
})

export const phTwoPoint = defineComputation({
  name: 'ph-two-point',
  title: 'Calibration of a pH electrode against two or more buffers',
  source: 'Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200',
  units: {
    'points.ph': 'pH',
    'points.millivolt': 'mV',
    temperatureCelsius: '°C',
    slopeMillivoltPerPh: 'mV per pH',
    slopePercent: '% of the theoretical slope',
    offsetMillivolt: 'mV at pH 7',
    largestResidualPh: 'pH',
  },
  input: z.object({
    points: z.array(point).min(2),
    temperatureCelsius: number,
    signalIs: z.enum(['electrode', 'amplified-unknown-gain']).optional(),
    amplifier: z.object({ gain: number, biasMillivolt: number }).optional(),
  }),
  output: z.object({
    slopeMillivoltPerPh: number,
    slopePercent: number.nullable(),
    offsetMillivolt: number,
    zeroPointPh: number.nullable(),
    largestResidualPh: number.nullable(),
    verdict,
    advice,
  }),
  run(input) {
    const points = input.points.map(
      (given): PhPoint => ({
        temperatureCelsius: input.temperatureCelsius,
        ...dropUndefined(given),
      }),
    )
    const fitted = fitCalibration({
      kind: 'ph-electrode',
      points,
      ...(input.signalIs === undefined ? {} : { signalIs: input.signalIs }),
      ...(input.amplifier === undefined ? {} : { amplifier: input.amplifier }),
    })
    if (isRefusal(fitted)) return fitted
    const { facts } = fitted
    return {
      slopeMillivoltPerPh: facts['slopeMillivoltPerPh'] as number,
      slopePercent: facts['slopePercent'] as number | null,
      offsetMillivolt: facts['offsetMillivolt'] as number,
      zeroPointPh: facts['zeroPointPh'] as number | null,
      largestResidualPh: facts['largestResidualPh'] as number | null,
      verdict: fitted.verdict,
      advice: fitted.advice.map((each) => each.text),
    }
  },
})

/** An absent field and an undefined one are not the same to an exact type. */
function dropUndefined(given: z.output<typeof point>): { millivolt: number } & Partial<PhPoint> {
  const { millivolt, ph, bufferSet, buffer, temperatureCelsius, role } = given
  return {
    millivolt,
    ...(ph === undefined ? {} : { ph }),
    ...(bufferSet === undefined ? {} : { bufferSet }),
    ...(buffer === undefined ? {} : { buffer }),
    ...(temperatureCelsius === undefined ? {} : { temperatureCelsius }),
    ...(role === undefined ? {} : { role }),
  }
}
