import { useEffect, useState } from 'preact/hooks'
import type { Enough } from '../../../hub/contract/plan-api.ts'
import { isOnTransect } from '../../../hub/contract/quadrat-place.ts'
import type { SpotValue } from '../../../hub/contract/spot.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { countText, valueText } from '../../format.ts'
import { channelList, rewritten, spotsChanged } from '../../notebook.ts'
import { Choice, Field } from '../../parts/field.tsx'
import { quantityWords } from '../../quantities.ts'
import { readNumber } from '../../read-number.ts'
import { planClient } from '../plan-client.ts'
import { PlanTabs } from '../plan-tabs.tsx'
import { visitingOrder } from '../print/visiting-order.ts'
import { type QuadratValues, quadratValues } from './quadrat-values.ts'
import { RunningMeanChart } from './running-mean-chart.tsx'

/** When more quadrats stop changing the answer: the running mean of what was measured so far. */
export function EnoughPage({ survey }: { survey: SurveyFile }) {
  const [spots, setSpots] = useState<SpotValue[]>([])
  const [trouble, setTrouble] = useState('')
  const [chosen, setChosen] = useState<string | null>(null)
  const [wished, setWished] = useState('10')
  const [enough, setEnough] = useState<Enough | null>(null)
  useEffect(() => {
    planClient.spots(survey.id).then(
      (answer) => {
        setSpots(answer.spots)
        setTrouble('')
      },
      (error) => setTrouble(messageOf(error)),
    )
  }, [survey.id, spotsChanged.value, rewritten.value])
  const order = visitingOrder(survey, '').map(({ label }) => label)
  const lists = quadratValues(survey.id, spots, channelList.value, order)
  const list = lists.find(({ key }) => key === chosen) ?? lists[0] ?? null
  const isAlongTape = survey.quadrats.some(
    (quadrat) => isOnTransect(quadrat) && list?.values.some((each) => each.quadrat === quadrat.label),
  )
  const percent = readNumber(wished)
  const isReadable = percent !== null && percent > 0 && percent <= 1000
  const asked =
    list && isReadable
      ? JSON.stringify({ values: list.values.map(({ value }) => value), relativeHalfWidth: percent / 100 })
      : null
  useEffect(() => {
    if (asked === null) return
    let isStale = false
    planClient.enough(JSON.parse(asked)).then(
      (answer) => {
        if (isStale) return
        setEnough(answer)
        setTrouble('')
      },
      (error) => {
        if (!isStale) setTrouble(messageOf(error))
      },
    )
    return () => {
      isStale = true
    }
  }, [asked])
  return (
    <article class="plan-page plain-page" data-enough={list?.quantity ?? ''}>
      <PlanTabs survey={survey.id} here="enough" />
      <h1>How many quadrats are enough?</h1>
      <p>
        After each quadrat the mean is worked out again. When the last three stay within ±5 % of the final
        one, more quadrats hardly change the answer (common practice).
      </p>
      {trouble !== '' && (
        <p class="field-wrong" role="alert">
          {trouble}
        </p>
      )}
      {list === null ? (
        <p>Nothing has been measured at any quadrat yet. Come back when the first values are there.</p>
      ) : (
        <>
          <div class="fields plan-part">
            <Choice
              label="Quantity"
              value={list.key}
              choices={lists.map((each) => ({ value: each.key, label: listLabel(each) }))}
              onValue={setChosen}
            />
            <Field
              label="Wished, ± %"
              kind="number"
              value={wished}
              onValue={setWished}
              width="7rem"
              hint="of the mean, 95 times in 100"
              wrong={isReadable ? undefined : 'A number above 0, such as 10.'}
            />
          </div>
          {isAlongTape && (
            <p class="plan-warning">
              These quadrats lie along a tape: the mean also moves because the place changes. It tells how
              many are enough within one zone or plot, not along a gradient.
            </p>
          )}
          {enough && (
            <>
              <p class="enough-sentence" role="status">
                {enough.sentence}
              </p>
              <RunningMeanChart
                steps={enough.steps}
                settledAt={enough.settledAt}
                quantity={list.quantity}
                unit={list.unit}
              />
            </>
          )}
          <details class="plan-more">
            <summary>The values</summary>
            <ul class="plan-ways">
              {list.values.map(({ quadrat, value }) => (
                <li key={quadrat}>
                  <b class="figures">{quadrat}</b> {valueText(list.quantity, list.unit, value, null)}
                </li>
              ))}
            </ul>
          </details>
        </>
      )}
    </article>
  )
}

function listLabel({ quantity, words, values }: QuadratValues): string {
  const how = words === '' ? '' : `, ${words}`
  return `${quantityWords(quantity).label}${how} (${countText(values.length, 'quadrat')})`
}
