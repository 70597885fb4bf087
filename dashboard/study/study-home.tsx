import type { SurveyFile } from '../../hub/contract/survey.ts'
import { StandingMark } from '../parts/marks.tsx'
import { pathTo } from '../router.ts'
import { studySteps } from './steps/step-list.ts'
import { type StepState, stepStates } from './steps/step-states.ts'
import { studyClient } from './study-client.ts'
import { TroubleNote } from './study-head.tsx'
import { studyWish } from './study-wish.ts'
import { useAsked } from './use-asked.ts'

const marks = { done: 'clean', open: 'suspect', waiting: 'missing' } as const
const markWords = { done: 'ready', open: 'to do', waiting: 'waits' } as const

/** The chapter's first page: the steps from readings to the write-up, each with its state. */
export function StudyHome({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const wish = studyWish(id).value
  const clean = useAsked(id, () => studyClient.clean(id))
  const sheets = useAsked(id, () => studyClient.sheets(id))
  const join = useAsked(id, () => studyClient.join(id, wish), [wish])
  const joined = join.answer === 'no-species' ? null : join.answer
  const states = stepStates({ clean: clean.answer, sheets: sheets.answer, join: joined })
  const animals = sheets.answer?.find(({ kind, isRemoved }) => kind === 'animals' && !isRemoved)
  const trouble = clean.trouble ?? sheets.trouble
  return (
    <article class="study-page">
      <header class="study-head">
        <h1>From readings to the write-up</h1>
        <p class="lead">Do the plants follow the factors? Seven steps, each rests on the one before.</p>
      </header>
      {trouble && (
        <TroubleNote
          trouble={trouble}
          onAgain={() => [clean, sheets, join].map(({ askAgain }) => askAgain())}
        />
      )}
      <ol class="study-steps">
        {studySteps.map(({ rest, name, title }, place) => (
          <li key={rest} data-step={rest} data-state={states[rest].state}>
            <a href={pathTo.chapter(id, 'study', rest)}>
              <span class="study-step-number" aria-hidden="true">
                {place + 1}
              </span>
              <span class="study-step-words">
                <b>
                  {name} <small class="study-step-title">{title}</small>
                </b>
                <StateLine {...states[rest]} />
              </span>
            </a>
          </li>
        ))}
      </ol>
      <section class="study-block">
        <h2>Animals</h2>
        <p>
          {animals
            ? `${animals.name} is kept. Counts for each trap and hour, with what the probes read while the trap stood.`
            : 'Pitfall traps, sweep nets, extraction funnels: counts with their effort, beside the readings of their time.'}
        </p>
        <p>
          <a class="button plain" href={pathTo.chapter(id, 'study', 'animals')}>
            {animals ? 'Look at the catches' : 'Add animals'}
          </a>
        </p>
      </section>
    </article>
  )
}

function StateLine({ state, text }: StepState) {
  return (
    <span class={`study-step-state is-${state}`}>
      <StandingMark standing={marks[state]} /> <span class="unseen">{markWords[state]}: </span>
      {text}
    </span>
  )
}
