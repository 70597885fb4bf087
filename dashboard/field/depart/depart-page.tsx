import type { DepartureItem } from '../../../hub/contract/field.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { fieldClient } from '../field-client.ts'
import { FieldHead } from '../field-head.tsx'
import { FieldMark } from '../field-marks.tsx'
import { useAnswer } from '../use-answer.ts'
import { alike } from './alike-items.ts'
import { DepartItem } from './depart-item.tsx'
import { PhoneClock } from './phone-clock.tsx'
import { TakeList } from './take-list.tsx'
import './depart.css'

const PARTS: readonly { about: DepartureItem['about']; title: string }[] = [
  { about: 'hub', title: 'The hub' },
  { about: 'plan', title: 'The plan' },
  { about: 'boards', title: 'Boards' },
  { about: 'clocks', title: 'Clocks' },
  { about: 'probes', title: 'Probes' },
]

/** Before leaving the school: what fails is named with its remedy, and what to take is listed. */
export function DepartPage({ survey }: { survey: SurveyFile }) {
  const { answer, trouble } = useAnswer(survey.id, () => fieldClient.departure(survey.id))
  const wanting = alike(answer?.items.filter(({ state }) => state !== 'ok') ?? [])
  return (
    <article class="field-page depart-page">
      <FieldHead survey={survey.id} title="Before we leave the school" trouble={trouble} />
      {answer === null ? (
        <p class="opening">Looking at everything…</p>
      ) : (
        <>
          <p
            class={`decision ${answer.mayGoOut ? 'decision-go' : 'decision-stay'}`}
            data-may-go-out={answer.mayGoOut ? 'yes' : 'no'}
            role="status"
          >
            <FieldMark state={answer.mayGoOut ? 'ok' : 'fail'} size={44} />
            <span>{answer.sentence}</span>
          </p>
          <PhoneClock />
          {wanting.length > 0 && (
            <section class="field-block">
              <h2>To mend or look at</h2>
              <ul class="depart-items">
                {wanting.map(({ item, titles }) => (
                  <DepartItem
                    key={`${item.about} ${titles.join(' ')}`}
                    survey={survey.id}
                    item={item}
                    titles={titles}
                  />
                ))}
              </ul>
            </section>
          )}
          <section class="field-block">
            <h2>In order</h2>
            {PARTS.map(({ about, title }) => (
              <InOrder
                key={about}
                title={title}
                items={answer.items.filter((item) => item.about === about)}
              />
            ))}
          </section>
          <TakeList survey={survey} />
        </>
      )}
    </article>
  )
}

function InOrder({ title, items }: { title: string; items: readonly DepartureItem[] }) {
  const fine = items.filter(({ state }) => state === 'ok')
  if (items.length === 0) return null
  return (
    <details class="depart-fine">
      <summary>
        <FieldMark state={fine.length === items.length ? 'ok' : 'look'} />
        {title}: {fine.length} of {items.length} in order
      </summary>
      <ul>
        {fine.map(({ title: name, words }) => (
          <li key={name}>
            <b>{name}</b> {words}
          </li>
        ))}
      </ul>
    </details>
  )
}
