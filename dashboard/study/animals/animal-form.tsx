import { useState } from 'preact/hooks'
import { knownSamplingMethods } from '../../../hub/contract/sampling-methods.ts'
import { Field } from '../../parts/field.tsx'
import { type AnimalRow, animalTrouble, blankAnimal, nextOfCatch } from './animal-draft.ts'
import { TimeField } from './time-field.tsx'

interface Props {
  /** traps and quadrats of the survey, to be chosen from */
  places: readonly string[]
  onAdd: (row: AnimalRow) => void
}

/** One animal of one catch; the next one of the same catch needs its name and count only. */
export function AnimalForm({ places, onAdd }: Props) {
  const [row, setRow] = useState(blankAnimal)
  const [trouble, setTrouble] = useState('')
  const field = (name: keyof AnimalRow) => ({
    value: row[name],
    onValue: (value: string) => setRow({ ...row, [name]: value }),
  })
  const add = () => {
    const wrong = animalTrouble(row)
    setTrouble(wrong ?? '')
    if (wrong !== null) return
    onAdd(row)
    setRow(nextOfCatch(row))
  }
  return (
    <form
      class="entry-form animal-form"
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <div class="fields">
        <Field label="Trap or quadrat" width="9rem" suggestions={places} {...field('trap')} />
        <Field
          label="How"
          suggestions={knownSamplingMethods.map(({ name }) => name)}
          hint="any other words may be used"
          {...field('method')}
        />
        <Field label="Animal" hint="“none” for an empty trap" {...field('taxon')} />
        <Field label="Count" kind="number" width="6rem" {...field('count')} />
        <TimeField label="Set" {...field('set')} />
        <TimeField label="Looked at" {...field('checked')} />
        <Field label="or hours out" kind="number" width="6rem" {...field('hours')} />
        <Field label="Sweeps" kind="number" width="6rem" {...field('sweeps')} />
        <Field label="Traps together" kind="number" width="6rem" {...field('traps')} />
        <p class="form-ways">
          <button type="submit">Add it to the list</button>
        </p>
      </div>
      {trouble && (
        <p class="study-trouble" role="alert">
          {trouble}
        </p>
      )}
    </form>
  )
}
