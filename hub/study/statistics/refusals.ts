import type { Refusal } from '../../../calibration/index.ts'

/** Every refusal of the statistics: its code and what it means. Messages are written where they happen. */
export const STATISTICS_REFUSALS = {
  E_TOO_FEW: 'too few values for this statistic to be worked out at all',
  E_UNPAIRED: 'two lists that belong together, value by value, are not of the same length',
  E_NOT_FINITE: 'a number is missing, not a number, or too large to be a measurement',
  E_CONSTANT: 'all values of a list are the same, so nothing can vary with it',
  E_NEGATIVE: 'a count, a cover or an uncertainty is below zero',
  E_NOT_WHOLE: 'a count of individuals or quadrats is not a whole number',
  E_LEVEL: 'a probability or a share is outside its range',
  E_TOO_MANY: 'more work was asked for than a page waits for',
} as const

export type StatisticsRefusalCode = keyof typeof STATISTICS_REFUSALS

export function refuse(code: StatisticsRefusalCode, message: string): Refusal {
  return { refused: true, code, message }
}
