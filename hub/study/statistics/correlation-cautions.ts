/** Fewer pairs than this are not tested at all. */
export const FEWEST_FOR_A_TEST = 5
/** Up to this many pairs only an almost perfect order can be significant (critical value 0.786 or more). */
const FEW = 7
/** A factor that follows the time of visit more strongly than this may be the clock; class practice, no source. */
const CLOCK = 0.6

export type CautionName = 'too-few' | 'few' | 'hump' | 'clock' | 'neighbours' | 'many-tests' | 'not-cause'

export interface Caution {
  name: CautionName
  text: string
}

/** What is known of how the data came about. */
export interface CorrelationCircumstances {
  /** as the class calls it, such as “relative light” */
  factor: string
  /** such as “grass cover” */
  species: string
  n: number
  /** from findHump */
  hump?: 'hump' | 'dip' | null
  /** Spearman's rho of the factor with the time of visit, −1…1 */
  rhoWithTime?: number | null
  /** true for quadrats beside each other along a tape, false for random ones far apart */
  areNeighbours?: boolean
  /** correlations worked out in the same study, this one included */
  testCount?: number
}

/** Everything that a careful reader should have in mind, in the order to be read. */
export function correlationCautions(about: CorrelationCircumstances): Caution[] {
  const { factor, species, n, hump = null, rhoWithTime = null, areNeighbours = false, testCount = 1 } = about
  const cautions: Caution[] = []
  const add = (name: CautionName, text: string) => cautions.push({ name, text })
  if (n < FEWEST_FOR_A_TEST) {
    add(
      'too-few',
      `Too few quadrats (${n}) for a test: with fewer than 5 even a perfect order comes up by chance.`,
    )
  } else if (n <= FEW) {
    add(
      'few',
      `Few quadrats (${n}): only an almost perfect order could show. A real link may well be missed.`,
    )
  }
  if (hump !== null) {
    const where = hump === 'hump' ? 'most in the middle' : 'least in the middle'
    add(
      'hump',
      `There seems to be ${where} of the range of ${factor}. A rank correlation sees only what goes one way, so look at the graph.`,
    )
  }
  if (rhoWithTime !== null && Math.abs(rhoWithTime) > CLOCK) {
    add(
      'clock',
      `${capital(factor)} follows the time of visit (rank correlation ${signed(rhoWithTime)}): it may be the clock, not the place. Compare with a station that stayed in one spot.`,
    )
  }
  if (areNeighbours) {
    add(
      'neighbours',
      'Quadrats next to each other are alike and do not count as fully independent, so the true p is larger than the one printed.',
    )
  }
  if (testCount > 1) {
    add(
      'many-tests',
      `${testCount} tests were run: about ${plain(0.05 * testCount)} would look significant by chance alone. By Holm’s rule the smallest p has to be ${plain(0.05 / testCount)} or less.`,
    )
  }
  add(
    'not-cause',
    `Going together is not cause. What changes along with ${factor} may be what matters to ${species}: shade also cools, shelters, and keeps soil wet or dry.`,
  )
  return cautions
}

/** Two significant digits, without an exponent. */
function plain(number: number): string {
  return String(Number(number.toPrecision(2)))
}

/** Two decimals with a true minus sign. */
export function signed(coefficient: number): string {
  const text = Math.abs(coefficient).toFixed(2)
  return coefficient < 0 && text !== '0.00' ? `−${text}` : text
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
