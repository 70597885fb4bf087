import { useState } from 'preact/hooks'
import type { SpeciesAnswers } from '../../../hub/contract/species.ts'
import { countText } from '../../format.ts'
import type { AskedQuestion } from './sheet-questions.ts'

interface Props {
  questions: readonly AskedQuestion[]
  isBusy: boolean
  onAnswer: (answers: SpeciesAnswers) => void
}

/** Questions one after another; an answer is kept at once and the next one comes. */
export function QuestionCards({ questions, isBusy, onAnswer }: Props) {
  const [skipped, setSkipped] = useState<readonly string[]>([])
  const [question] = [
    ...questions.filter(({ id }) => !skipped.includes(id)),
    ...questions.filter(({ id }) => skipped.includes(id)),
  ]
  if (!question) return null
  return (
    <section class="question" data-question={question.id} aria-live="polite">
      <p class="question-count">
        {questions.length === 1 ? 'One question' : `${countText(questions.length, 'question')} open`}
      </p>
      <h2>{question.text}</h2>
      {question.choices.length === 0 ? (
        <NumberAnswer key={question.id} id={question.id} isBusy={isBusy} onAnswer={onAnswer} />
      ) : (
        <div class="question-choices">
          {question.choices.map(({ text, answers }) => (
            <button
              key={text}
              type="button"
              class="plain"
              disabled={isBusy}
              data-answer={Object.values(answers)[0]}
              onClick={() => onAnswer(answers)}
            >
              {text}
            </button>
          ))}
        </div>
      )}
      {questions.length > 1 && (
        <button
          type="button"
          class="take plain"
          onClick={() => setSkipped([...skipped.filter((id) => id !== question.id), question.id])}
        >
          Ask this later
        </button>
      )}
    </section>
  )
}

function NumberAnswer(props: { id: string; isBusy: boolean; onAnswer: (answers: SpeciesAnswers) => void }) {
  const [text, setText] = useState('')
  const isRight = /^[1-9]\d{0,4}$/.test(text.trim())
  return (
    <form
      class="question-number"
      onSubmit={(event) => {
        event.preventDefault()
        if (isRight) props.onAnswer({ [props.id]: text.trim() })
      }}
    >
      <label>
        A whole number, such as 25
        <input
          inputMode="numeric"
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
          aria-invalid={text !== '' && !isRight}
        />
      </label>
      <button type="submit" disabled={props.isBusy || !isRight}>
        Keep it
      </button>
    </form>
  )
}
