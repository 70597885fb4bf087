import { z } from 'zod'
import { circularMeanOfDay } from '../study/statistics/circular-mean.ts'
import { answer, defineComputation } from './computation.ts'
import { momentToNumber, number } from './fields.ts'

const timeOfDay = z
  .string()
  .regex(/^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?$/, 'a time of day is written 09:30 or 09:30:15')

export const circularMean = defineComputation({
  name: 'circular-mean',
  title: 'Mean time of day, taken round the clock',
  source: 'Mardia & Jupp 2000, Directional Statistics, §2.2',
  units: {
    times: 'time of day, 00:00–23:59, one time zone',
    time: 'time of day, to the second; null: the times cancel out',
    secondsOfDay: 's since midnight',
    resultantLength: '1 all alike … 0 all round the clock',
  },
  input: z.object({ times: z.array(timeOfDay) }),
  output: z.object({
    time: z.string().nullable(),
    secondsOfDay: number.nullable(),
    resultantLength: number,
    n: number,
  }),
  run: ({ times }) =>
    answer(circularMeanOfDay(times.map((time) => momentToNumber(time) / 1000)), (mean) => ({
      ...mean,
      time: mean.secondsOfDay === null ? null : clockText(mean.secondsOfDay),
    })),
})

function clockText(secondsOfDay: number): string {
  const whole = Math.round(secondsOfDay) % 86_400
  return new Date(whole * 1000).toISOString().slice(11, 19)
}
