import { useState } from 'preact/hooks'
import type { SpeciesAnswers } from '../../../hub/contract/species.ts'
import { Choice, Field } from '../../parts/field.tsx'
import { readNumber } from '../../read-number.ts'
import { layoutWords, measureNames, measureWords } from './measure-words.ts'

interface Props {
  answers: SpeciesAnswers
  /** a null takes the answer back, and the hub judges by itself again */
  onSay: (id: string, value: string | null) => void
}

/** When the hub took the sheet for something else: say what it measures, how it is laid out, what a trace stands for. */
export function ReadOtherwise({ answers, onSay }: Props) {
  const [trace, setTrace] = useState(answers['trace'] ?? '')
  const percent = readNumber(trace)
  const isRight = trace === '' || (percent !== null && percent > 0 && percent <= 5)
  const asRecognised = { value: '', label: 'as the hub recognises it' }
  return (
    <details class="study-fold">
      <summary>Read it in another way</summary>
      <div class="fields">
        <Choice
          label="What was measured"
          value={answers['measure'] ?? ''}
          onValue={(value) => onSay('measure', value === '' ? null : value)}
          choices={[
            asRecognised,
            ...measureNames.map((value) => ({ value, label: measureWords[value].label })),
          ]}
        />
        <Choice
          label="How it is laid out"
          value={answers['layout'] ?? ''}
          onValue={(value) => onSay('layout', value === '' ? null : value)}
          choices={[asRecognised, ...Object.entries(layoutWords).map(([value, label]) => ({ value, label }))]}
        />
        <Field
          label="A trace (+) stands as"
          kind="number"
          width="6rem"
          value={trace}
          onValue={setTrace}
          hint="0.5 unless you say otherwise"
          wrong={isRight ? undefined : 'a percentage above 0 and up to 5'}
          after={
            <>
              %
              <button
                type="button"
                class="take plain"
                disabled={!isRight}
                onClick={() => onSay('trace', trace === '' ? null : trace)}
              >
                Set
              </button>
            </>
          }
        />
      </div>
    </details>
  )
}
