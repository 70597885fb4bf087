import type { z } from 'zod'
import { isRefusal } from '../../../calibration/index.ts'
import type { Enough, EnoughWish } from '../../contract/plan-api.ts'
import { runningMean } from '../../study/statistics/running-mean.ts'
import { sampleSize } from '../../study/statistics/sample-size.ts'
import { countOf } from './plan-faults.ts'

const NOT_YET = 'Values at three quadrats or more are needed before this can be said.'

/** How the mean runs with each further quadrat, and how many are needed for a wished precision. */
export function howManyAreEnough({ values, relativeHalfWidth }: z.output<typeof EnoughWish>): Enough {
  const running = runningMean(values)
  if (isRefusal(running)) return { steps: [], settledAt: null, needed: null, sentence: NOT_YET }
  const size = sampleSize(values, relativeHalfWidth)
  const needed = isRefusal(size) ? null : size.needed
  return {
    steps: running.means.map((mean, index) => ({
      n: index + 1,
      mean,
      standardError: standardError(values.slice(0, index + 1), mean),
    })),
    settledAt: running.settledAt,
    needed,
    sentence: [
      running.isSettled === null
        ? NOT_YET
        : running.settledAt === null
          ? `After ${countOf(values.length, 'quadrat')} the mean still moves by more than 5 %.`
          : `From ${countOf(running.settledAt, 'quadrat')} on the running mean stays within 5 % of the last one.`,
      isRefusal(size) ? '' : precisionSentence(size.needed, size.more, relativeHalfWidth),
    ]
      .filter((sentence) => sentence !== '')
      .join(' '),
  }
}

function precisionSentence(needed: number, more: number, relativeHalfWidth: number): string {
  const wished = `±${Number((relativeHalfWidth * 100).toFixed(1))} %`
  return more === 0
    ? `${wished} of the mean is reached: ${countOf(needed, 'quadrat')} would do.`
    : `For ${wished} of the mean plan ${countOf(needed, 'quadrat')} in all: ${more} more.`
}

function standardError(values: readonly number[], mean: number): number | null {
  if (values.length < 2) return null
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return Math.sqrt(squares / (values.length - 1) / values.length)
}
