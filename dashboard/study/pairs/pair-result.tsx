import type { StudyPair } from '../../../hub/contract/study.ts'
import { coefficientText, pText } from './number-words.ts'
import { Robustness } from './robustness.tsx'

/** One factor beside one species: the result in words, its numbers, and what to bear in mind. */
export function PairResult({ survey, pair }: { survey: string; pair: StudyPair }) {
  const { rho, p, adjustedP, n, rhoLow, rhoHigh, method, pearson, pearsonP } = pair
  const interval =
    rhoLow === null || rhoHigh === null
      ? 'not known for so few'
      : `${coefficientText(rhoLow)} to ${coefficientText(rhoHigh)}`
  const numbers = [
    { name: 'Spearman’s ρ', text: coefficientText(rho) },
    { name: 'quadrats, n', text: String(n) },
    { name: 'p', text: p === null ? 'no test' : pText(p) },
    { name: 'p after Holm', text: adjustedP === null ? 'no test' : pText(adjustedP) },
    { name: '95 % interval of ρ', text: interval },
    { name: 'how p was found', text: method },
    {
      name: 'Pearson’s r (straight line)',
      text:
        pearson === null
          ? 'not for these'
          : `${coefficientText(pearson)}, ${pearsonP === null ? 'no test' : `p ${pearsonP < 0.001 ? '' : '= '}${pText(pearsonP)}`}`,
    },
  ]
  return (
    <section class="pair-result" data-result>
      <p class="pair-verdict">{pair.verdict}</p>
      <p>{pair.result}</p>
      <dl class="pair-numbers">
        {numbers.map(({ name, text }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <Robustness survey={survey} pair={pair} />
    </section>
  )
}
