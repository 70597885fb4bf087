import type { StudyPair } from '../../../contract/study.ts'
import { signed } from '../../statistics/correlation-cautions.ts'
import { fixed } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { type Block, paragraph, table } from '../report-model.ts'

/** So many pairs are put into words; all are in the table. */
const IN_WORDS = 6

/** Factors beside species: every pair in a table, the clearest in words, and what to beware of, each caution once. */
export function correlationBlocks({ material, wish }: ReportFacts): Block[] {
  const { pairs, tests } = material.statistics
  if (pairs.length === 0) return []
  if (!wish.areVerdictsShown) return heldBack(pairs)
  const clearest = pairs
    .filter(({ p }) => p !== null)
    .sort((one, other) => one.p! - other.p!)
    .slice(0, IN_WORDS)
  const spoken = clearest.length > 0 ? clearest : pairs.slice(0, IN_WORDS)
  const cautions = cautionsOf(spoken)
  return [
    { kind: 'heading', text: 'Do the plants follow the factors?' },
    table(
      `Spearman’s rank correlation ρ of each factor with each species (${tests} tests)`,
      ['Factor', 'Species', 'n', 'ρ', '95 % interval', 'p', 'p (Holm)', 'stays significant in redraws'],
      [2, 3, 4, 5, 6, 7],
      pairs.map(pairRow),
    ),
    {
      kind: 'note',
      text: 'p (Holm): corrected for the number of tests. Redraws: each value is moved at random within its uncertainty 200 times; the share in which p stays at 0.05 or below says how far the result rests on the measurements being exact.',
    },
    ...spoken.map(({ result, verdict }) =>
      paragraph([result, verdict].filter((each) => each !== null).join(' ')),
    ),
    { kind: 'heading', text: 'Before you conclude' },
    { kind: 'list', items: cautions.map((text) => [text]) },
  ]
}

const NOT_CAUSE = 'Going together is not cause.'

/** Every caution once; the one that goes with every pair is said for all of them together. */
function cautionsOf(pairs: readonly StudyPair[]): string[] {
  const own = pairs.flatMap(({ cautions }) => cautions).filter((text) => !text.startsWith(NOT_CAUSE))
  return [
    ...new Set(own),
    `${NOT_CAUSE} What changes along with a factor may be what matters to a plant: shade also cools, shelters, and keeps soil wet or dry.`,
  ]
}

function pairRow(pair: StudyPair): string[] {
  const { factor, species, n, rho, rhoLow, rhoHigh, p, adjustedP, significantShare } = pair
  return [
    factor,
    species,
    fixed(n, 0),
    rho === null ? 'not defined' : signed(rho),
    rhoLow === null || rhoHigh === null ? '–' : `${signed(rhoLow)} to ${signed(rhoHigh)}`,
    pText(p),
    pText(adjustedP),
    significantShare === null ? '–' : fixed(100 * significantShare, 0, '%'),
  ]
}

export function pText(p: number | null): string {
  if (p === null) return '–'
  return p < 0.001 ? '< 0.001' : fixed(p, p < 0.01 ? 4 : 3)
}

function heldBack(pairs: readonly StudyPair[]): Block[] {
  return [
    { kind: 'heading', text: 'Do the plants follow the factors?' },
    paragraph(
      'The coefficients and tests are held back until you have written down what you expect. Look at the pictures, then say for each factor which way each species should go with it, and why.',
    ),
    table(
      'What you expect: up, down, or neither',
      ['Factor', 'Species', 'n', 'We expect', 'because'],
      [2],
      pairs.map(({ factor, species, n }) => [factor, species, fixed(n, 0), '', '']),
    ),
  ]
}
