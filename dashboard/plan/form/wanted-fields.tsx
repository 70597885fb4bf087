import { Choice, Field } from '../../parts/field.tsx'
import { fieldQuantities, quantityWords } from '../../quantities.ts'
import type { FieldFaults } from './field-reader.ts'
import { freshWanted, type WantedForm } from './plan-form.ts'

/** What is to be measured at every quadrat, how and how often: what “complete” means. */
export function WantedFields(props: {
  wanted: readonly WantedForm[]
  faults: FieldFaults
  onWanted: (wanted: WantedForm[]) => void
}) {
  const { wanted, faults, onWanted } = props
  const next = fieldQuantities.find(({ name }) => wanted.every(({ quantity }) => quantity !== name))
  return (
    <details class="plan-fold" {...(wanted.length > 0 ? { open: true } : {})}>
      <summary>
        <h2>What is to be measured</h2>
      </summary>
      <p>The page “safe to leave” goes by this: it says what is still missing before the class goes home.</p>
      {wanted.map((each, index) => {
        const set = (part: Partial<WantedForm>) =>
          onWanted(wanted.map((other, at) => (at === index ? { ...other, ...part } : other)))
        const line = (name: Exclude<keyof WantedForm, 'by' | 'quadrats'>, at = name as string) => ({
          value: each[name],
          wrong: faults[`wanted[${index}].${at}`],
          onValue: (value: string) => set({ [name]: value }),
        })
        return (
          <section class="plan-part" key={index} aria-label={quantityWords(each.quantity).label}>
            <div class="fields">
              <Field
                label="Quantity"
                {...line('quantity')}
                suggestions={fieldQuantities.map(({ name }) => name)}
              />
              <Choice
                label="By"
                value={each.by}
                choices={[
                  { value: 'carried', label: 'a carried meter' },
                  { value: 'standing', label: 'a probe that stands there' },
                ]}
                onValue={(by) => set({ by: by as WantedForm['by'] })}
              />
              <Field label="Replicates" kind="number" {...line('replicates')} width="7rem" />
              <Field label="Minutes a quadrat" kind="number" {...line('minutes')} width="7rem" />
              <Field label="Way" {...line('way')} hint="such as direct, or slurry 1:2.5" />
              <Field label="Depth, cm" kind="number" {...line('depthCentimetres')} width="7rem" />
              <Field label="Height, m" kind="number" {...line('heightMetres')} width="7rem" />
            </div>
            <button
              type="button"
              class="plain take"
              onClick={() => onWanted(wanted.filter((_, at) => at !== index))}
            >
              Leave out {quantityWords(each.quantity).label.toLowerCase()}
            </button>
          </section>
        )
      })}
      <p class="form-ways">
        <button
          type="button"
          class="plain"
          onClick={() => onWanted([...wanted, freshWanted(next?.name ?? 'another_quantity')])}
        >
          Add a quantity
        </button>
      </p>
    </details>
  )
}
