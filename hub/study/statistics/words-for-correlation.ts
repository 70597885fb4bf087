import {
  type Caution,
  type CorrelationCircumstances,
  correlationCautions,
  FEWEST_FOR_A_TEST,
  signed,
} from './correlation-cautions.ts'

const LEVEL = 0.05

export interface CorrelationToRead extends CorrelationCircumstances {
  rho: number | null
  /** two-tailed */
  p: number | null
  /** as spearman() names it */
  method: string
  /** p after Holm's correction among all tests of the study */
  adjustedP?: number | null
  /** true until the class has written down what it expects: numbers and verdict stay hidden */
  isVerdictHeldBack?: boolean
}

export interface CorrelationWords {
  /** coefficient, n, method and p in one sentence; null when held back */
  result: string | null
  /** what that means; null when held back */
  verdict: string | null
  cautions: Caution[]
  /** all of it, ready to be read out */
  paragraph: string
}

/**
 * A correlation in plain words, with everything a careful reader should have in mind.
 * The tool says what the numbers say; what it means for the habitat is for the class to write.
 * @param read  n as a whole number; rho and p from spearman(), null where not defined
 */
export function wordsForCorrelation(read: CorrelationToRead): CorrelationWords {
  const isHeldBack = read.isVerdictHeldBack === true
  // that there is a hump would give the answer away
  const cautions = correlationCautions(read).filter(({ name }) => !isHeldBack || name !== 'hump')
  const result = isHeldBack ? null : resultOf(read)
  const verdict = isHeldBack ? null : verdictOf(read)
  const opening = isHeldBack
    ? [
        `Write down first what you expect of ${read.factor} and ${read.species}, and why. The result is shown after that.`,
      ]
    : [result, verdict].filter((sentence) => sentence !== null)
  return { result, verdict, cautions, paragraph: [...opening, ...cautions.map(({ text }) => text)].join(' ') }
}

function resultOf({ factor, species, rho, p, n, method }: CorrelationToRead): string {
  if (rho === null) {
    return `There is no rank correlation of ${factor} with ${species} (n = ${n}): it is not defined where all values of one are the same, or for a single quadrat.`
  }
  const figures = `${signed(rho)} (Spearman, n = ${n}`
  if (n < FEWEST_FOR_A_TEST || p === null) {
    return `The rank correlation of ${factor} with ${species} is ${figures}); no test is made.`
  }
  return `The rank correlation of ${factor} with ${species} is ${figures}, ${pInWords(p)}, ${method}).`
}

function verdictOf({ factor, species, rho, p, n, adjustedP = null }: CorrelationToRead): string {
  if (rho === null)
    return 'Where nothing varies nothing can vary with it: this is no sign for a link, and none against it.'
  if (n < FEWEST_FOR_A_TEST || p === null)
    return 'Look at the graph, and count more quadrats before you conclude anything.'
  if (p > LEVEL) {
    return `That is not significant: an order like this comes up easily by chance. It does not show that ${factor} and ${species} have nothing to do with each other.`
  }
  const direction = `Where ${factor} is higher, ${species} tends to be ${rho > 0 ? 'higher' : 'lower'}.`
  if (adjustedP !== null && adjustedP > LEVEL) {
    return `${direction} Taken alone that is significant; among all the tests that were run it is not (Holm, ${pInWords(adjustedP)}).`
  }
  return `${direction} That is significant: by chance alone an order as clear as this would come up in fewer than 1 of 20 such surveys.`
}

function pInWords(p: number): string {
  return p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.01 ? 4 : 3)}`
}
