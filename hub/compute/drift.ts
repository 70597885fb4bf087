import { z } from 'zod'
import { correctDrift, isRefusal, refuse } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { moment, momentToNumber, number } from './fields.ts'

export const drift = defineComputation({
  name: 'drift',
  title: 'A reading corrected for drift found by check standards afterwards',
  source: 'Wagner, Boulger, Oblinger & Smith 2006, USGS Techniques and Methods 1-D3',
  units: {
    calibratedAt: 'ISO 8601, time of day, or a number',
    checkedAt: 'as calibratedAt',
    readAt: 'as calibratedAt',
    reading: 'the quantity’s',
    'checks.reference': 'the quantity’s',
    'checks.reading': 'the quantity’s',
    error: 'the quantity’s',
    corrected: 'the quantity’s',
  },
  input: z.object({
    calibratedAt: moment,
    checkedAt: moment,
    readAt: moment,
    reading: number,
    checks: z.array(z.object({ reference: number, reading: number })),
    fouling: z.object({ beforeCleaning: number, afterCleaning: number }).optional(),
  }),
  output: z.object({ corrected: number, error: number, errorAtCheck: number, isExtrapolated: z.boolean() }),
  run({ calibratedAt, checkedAt, readAt, reading, checks, fouling }) {
    const times = { calibratedAt, checkedAt, readAt }
    for (const [field, given] of Object.entries(times)) {
      if (Number.isNaN(momentToNumber(given))) {
        return refuse(
          'E_NOT_FINITE',
          `“${field}” is “${given}”; write it as 2026-05-06T09:30:00Z, 09:30, or a number.`,
        )
      }
    }
    const corrected = correctDrift({
      calibratedAt: momentToNumber(calibratedAt),
      checkedAt: momentToNumber(checkedAt),
      readAt: momentToNumber(readAt),
      reading,
      checks,
      ...(fouling === undefined ? {} : { fouling }),
    })
    return isRefusal(corrected) ? corrected : { ...corrected }
  },
})
