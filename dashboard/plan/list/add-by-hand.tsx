import { useState } from 'preact/hooks'
import type { Quadrat } from '../../../hub/contract/survey.ts'
import { Choice, Field } from '../../parts/field.tsx'
import { readNumbers } from '../../read-number.ts'
import { nextName } from '../form/plan-form.ts'
import type { PlanDraft } from '../use-plan-draft.ts'

/** Quadrats at places that are written down: distances along a tape, or corners in a plot. */
export function AddByHand({ draft }: { draft: PlanDraft }) {
  const { form } = draft
  const grounds = [...form.transects, ...form.plots].map(({ id }) => id)
  const [chosen, setChosen] = useState(grounds[0] ?? '')
  const [typed, setTyped] = useState('')
  const [said, setSaid] = useState('')
  const ground = grounds.includes(chosen) ? chosen : (grounds[0] ?? '')
  const isPlot = form.plots.some(({ id }) => id === ground)
  const add = () => {
    const numbers = readNumbers(typed)
    const isWrong = numbers.length === 0 || numbers.includes(null) || (isPlot && numbers.length % 2 === 1)
    if (isWrong) {
      setSaid(
        isPlot ? 'Two numbers for each corner, such as 1.5 2; 3 4.' : 'Only numbers, with spaces between.',
      )
      return
    }
    if (numbers.some((metres) => metres !== null && metres < 0)) {
      setSaid('Distances count from the zero mark or the corner: none below 0.')
      return
    }
    setSaid('')
    setTyped('')
    draft.change({ quadrats: [...draft.quadrats, ...laid(draft, ground, isPlot, numbers as number[])] })
  }
  if (grounds.length === 0) return null
  return (
    <details class="plan-more">
      <summary>Add quadrats at places I write down</summary>
      <div class="fields">
        {grounds.length > 1 && (
          <Choice
            label="On"
            value={ground}
            choices={grounds.map((id) => ({ value: id, label: id }))}
            onValue={setChosen}
          />
        )}
        <Field
          label={isPlot ? 'Corners x y, m' : 'Distances, m'}
          value={typed}
          onValue={setTyped}
          hint={isPlot ? 'such as 1.5 2; 3 4' : 'With spaces between, such as 1 3.5 6'}
          wrong={said === '' ? undefined : said}
        />
        <p class="form-ways">
          <button type="button" class="plain" onClick={add}>
            Lay them
          </button>
        </p>
      </div>
    </details>
  )
}

/** New quadrats of the same size as the last one, each with the next free label. */
function laid(draft: PlanDraft, ground: string, isPlot: boolean, numbers: readonly number[]): Quadrat[] {
  const like = draft.quadrats.at(-1)
  const taken = draft.quadrats.map(({ label }) => label)
  const places = isPlot
    ? numbers.flatMap((number, index) =>
        index % 2 === 0 ? [{ plot: ground, xMetres: number, yMetres: numbers[index + 1] ?? 0 }] : [],
      )
    : numbers.map((distanceMetres) => ({ transect: ground, distanceMetres }))
  return places.map((place) => {
    const label = nextName('Q', taken)
    taken.push(label)
    return {
      label,
      ...place,
      sideMetres: like?.sideMetres ?? 0.5,
      gridDivisions: like?.gridDivisions ?? 10,
    }
  })
}
