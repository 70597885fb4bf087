import { z } from 'zod'
import { isRefusal, refuse, relativeLight } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { moment, momentToNumber, number } from './fields.ts'

export const relativeLightComputation = defineComputation({
  name: 'relative-light',
  title: 'Light in a quadrat as a percentage of the open sky at the same moment',
  source: 'Anderson 1964, J. Ecol. 52, 27–41, on relative light; validity limits are class practice',
  units: {
    probeLux: 'lx',
    at: 's, ISO 8601, or time of day',
    factor: '1',
    'reference.lux': 'lx',
    relativePercent: '%',
    referenceLux: 'lx',
    nearestSeconds: 's',
  },
  input: z.object({
    probeLux: number,
    at: moment,
    factor: number.optional(),
    reference: z.array(z.object({ at: moment, lux: number, saturated: z.boolean().optional() })),
    sky: z.enum(['broken', 'even']).optional(),
  }),
  output: z.object({
    relativePercent: number,
    referenceLux: number,
    nearestSeconds: number,
    remarks: z.array(z.string()),
  }),
  run({ probeLux, at, factor = 1, reference, sky = 'even' }) {
    const readings = reference.map((each) => ({
      seconds: toSeconds(each.at),
      lux: each.lux,
      saturated: each.saturated === true,
    }))
    if (readings.some((each) => Number.isNaN(each.seconds))) {
      return refuse(
        'E_NOT_FINITE',
        'The time of a reference reading cannot be read; write 2026-05-06T10:42:00Z or 10:42:00.',
      )
    }
    readings.sort((one, other) => one.seconds - other.seconds)
    const light = relativeLight({ probeLux, seconds: toSeconds(at), factor, reference: readings, sky })
    return isRefusal(light) ? light : { ...light }
  },
})

/** A number is already in seconds. */
function toSeconds(at: number | string): number {
  return typeof at === 'number' ? at : momentToNumber(at) / 1000
}
