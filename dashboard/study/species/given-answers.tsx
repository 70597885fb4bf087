import type { GivenAnswer } from './sheet-questions.ts'

/** What was answered, each with a way to change it: the question then comes again. */
export function GivenAnswers(props: {
  given: readonly GivenAnswer[]
  isBusy: boolean
  onForget: (id: string) => void
}) {
  if (props.given.length === 0) return null
  return (
    <section class="study-block">
      <h2>What you said</h2>
      <ul class="study-lines">
        {props.given.map(({ id, text }) => (
          <li key={id} data-answered={id}>
            <span>{text}</span>
            <button
              type="button"
              class="take plain"
              disabled={props.isBusy}
              aria-label={`Change: ${text}`}
              onClick={() => props.onForget(id)}
            >
              Change
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
