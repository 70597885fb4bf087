import { useState } from 'preact/hooks'
import type { StudyPair } from '../../../hub/contract/study.ts'
import { numberText } from '../../format.ts'
import { Choice } from '../../parts/field.tsx'
import { pathTo } from '../../router.ts'
import { ScrollBox } from '../scroll-box.tsx'
import { coefficientText, pText } from './number-words.ts'
import { type PairOrder, pairOrders, sortPairs } from './sort-pairs.ts'

const FIRST = 40

/** Every factor beside every species; a hidden result says what it waits for. */
export function PairList(props: {
  survey: string
  pairs: readonly StudyPair[]
  isHidden: (pair: StudyPair) => boolean
}) {
  const { survey, pairs, isHidden } = props
  const [order, setOrder] = useState<PairOrder>('clearest')
  const [isAll, setAll] = useState(false)
  const shown = pairs.map((pair) =>
    isHidden(pair) ? { ...pair, rho: null, p: null, adjustedP: null } : pair,
  )
  const sorted = sortPairs(shown, order)
  return (
    <>
      <div class="fields">
        <Choice
          label="Order"
          value={order}
          onValue={(value) => setOrder(value as PairOrder)}
          choices={pairOrders}
        />
      </div>
      <ScrollBox name="All pairs">
        <table class="study-table pair-table">
          <thead>
            <tr>
              <th scope="col">Pair</th>
              <th scope="col">n</th>
              <th scope="col">ρ</th>
              <th scope="col">p</th>
              <th scope="col">p, Holm</th>
            </tr>
          </thead>
          <tbody>
            {sorted.slice(0, isAll ? sorted.length : FIRST).map((pair) => (
              <PairRow
                key={`${pair.factor}\n${pair.species}`}
                survey={survey}
                pair={pair}
                isHidden={isHidden(pair)}
              />
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {!isAll && sorted.length > FIRST && (
        <button type="button" class="take plain" onClick={() => setAll(true)}>
          Show all {numberText(sorted.length, 0)}
        </button>
      )}
    </>
  )
}

function PairRow({ survey, pair, isHidden }: { survey: string; pair: StudyPair; isHidden: boolean }) {
  const { factor, species, n, rho, p, adjustedP } = pair
  const isClear = adjustedP !== null && adjustedP <= 0.05
  return (
    <tr data-pair={`${factor} | ${species}`}>
      <th scope="row">
        <a href={pathTo.chapter(survey, 'study', 'test', factor, species)}>
          {factor} and {species}
        </a>
      </th>
      <td>{n}</td>
      {isHidden ? (
        <td colSpan={3} class="is-hidden">
          say first what you expect
        </td>
      ) : (
        <>
          <td>{coefficientText(rho)}</td>
          <td>{pText(p)}</td>
          <td>
            {pText(adjustedP)}
            {isClear && (
              <b>
                {' '}
                <span aria-hidden="true">✱</span>
                <span class="unseen">significant</span>
              </b>
            )}
          </td>
        </>
      )}
    </tr>
  )
}
