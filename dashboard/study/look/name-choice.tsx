import { useId } from 'preact/hooks'

interface Props {
  legend: string
  names: readonly string[]
  chosen: readonly string[]
  /** only one can be drawn: the first is, when none is chosen */
  isOne: boolean
  onChoose: (chosen: string[]) => void
}

/** Names of factors or species to be drawn; several, where none chosen means all, or one. */
export function NameChoice({ legend, names, chosen, isOne, onChoose }: Props) {
  const group = useId()
  if (names.length === 0) return null
  const first = names.find((name) => chosen.includes(name)) ?? names[0]
  return (
    <fieldset class="name-choice">
      <legend>
        {legend} {!isOne && chosen.length === 0 && <small>none chosen: all are drawn</small>}
      </legend>
      {names.map((name) => (
        <label key={name}>
          <input
            type={isOne ? 'radio' : 'checkbox'}
            name={group}
            checked={isOne ? name === first : chosen.includes(name)}
            onChange={(event) => {
              const { checked } = event.currentTarget
              onChoose(
                isOne ? [name] : names.filter((each) => (each === name ? checked : chosen.includes(each))),
              )
            }}
          />
          {name}
        </label>
      ))}
    </fieldset>
  )
}
