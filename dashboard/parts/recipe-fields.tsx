import type { ChannelNow } from '../../hub/contract/reading.ts'
import { signalText } from '../format.ts'
import { initialEntries, kindsFor } from '../recipe-form.ts'
import { Choice, Field } from './field.tsx'

export interface RecipeEntered {
  /** '' for none yet */
  kind: string
  entered: Record<string, string>
}

/** Takes down a calibration: which kind, then its few numbers; a signal can be taken as it is at this moment. */
export function RecipeFields(props: {
  quantity: string
  channel: ChannelNow
  value: RecipeEntered
  wrong: readonly string[]
  mayBeNone: boolean
  onValue: (value: RecipeEntered) => void
}) {
  const { quantity, channel, value, wrong, onValue } = props
  const kinds = kindsFor(quantity)
  const kind = kinds.find((candidate) => candidate.kind === value.kind)
  const signal = channel.latest?.[3]
  return (
    <>
      <Choice
        label="Calibration"
        value={value.kind}
        choices={[
          { value: '', label: props.mayBeNone ? 'none yet: readings are kept, but not clean' : 'choose one' },
          ...kinds.map((each) => ({ value: each.kind, label: each.label })),
        ]}
        onValue={(next) => {
          const chosen = kinds.find((candidate) => candidate.kind === next)
          onValue({ kind: next, entered: chosen ? initialEntries(chosen) : {} })
        }}
      />
      {kind && (
        <div class="recipe">
          {kind.fields.map((field) => {
            const set = (text: string) =>
              onValue({ ...value, entered: { ...value.entered, [field.name]: text } })
            const text = value.entered[field.name] ?? ''
            return field.choices ? (
              <Choice
                key={field.name}
                label={field.label}
                value={text}
                choices={field.choices}
                onValue={set}
              />
            ) : (
              <Field
                key={field.name}
                label={field.label}
                kind="number"
                value={text}
                onValue={set}
                width="8rem"
                wrong={wrong.includes(field.name) ? 'a number is needed here' : undefined}
                after={
                  field.isSignal &&
                  signal !== undefined && (
                    <button type="button" class="plain take" onClick={() => set(String(signal))}>
                      take {signalText(signal, channel.signalUnit)}
                    </button>
                  )
                }
              />
            )
          })}
        </div>
      )}
    </>
  )
}
