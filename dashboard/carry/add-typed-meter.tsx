import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { messageOf } from '../client.ts'
import { unitText } from '../format.ts'
import { hubNowMs } from '../hub-clock.ts'
import { fetchSurvey, knownProbes } from '../notebook.ts'
import { Choice, Field } from '../parts/field.tsx'
import { usualWays } from '../place-form.ts'
import { fieldQuantities } from '../quantities.ts'
import { carryClient } from './carry-client.ts'
import { choose } from './choices.ts'
import {
  freshTypedMeter,
  type TypedMeterForm,
  typedMeter,
  typedMeterFaults,
  unitOfMeter,
} from './typed-meter.ts'

const OWN = 'own'

/** A meter that is read by eye: what it measures and how, so that its values are never mixed with unlike ones. */
export function AddTypedMeter({ survey }: { survey: SurveyFile }) {
  const [form, setForm] = useState<TypedMeterForm>(() => freshTypedMeter('soil_ph', knownProbes()))
  const [isTried, setTried] = useState(false)
  const [isBusy, setBusy] = useState(false)
  const [said, setSaid] = useState('')
  const isOwn = !fieldQuantities.some(({ name }) => name === form.quantity)
  const faults = isTried ? typedMeterFaults(form, survey) : {}
  const line = (name: keyof TypedMeterForm) => ({
    value: form[name],
    onValue: (value: string) => setForm({ ...form, [name]: value }),
    wrong: faults[name],
  })
  const unit = unitText(unitOfMeter(form))
  const add = async () => {
    setTried(true)
    if (Object.keys(typedMeterFaults(form, survey)).length > 0) return
    setBusy(true)
    const { placing, calibration } = typedMeter(form, survey, hubNowMs())
    try {
      await carryClient.place(survey.id, placing)
      // tried again after a lost answer, the calibration may be there already
      if (!survey.calibrations.some(({ id }) => id === calibration.id))
        await carryClient.calibrate(survey.id, calibration)
      await fetchSurvey(survey.id)
      choose(survey.id, { meter: `eye:${calibration.probe}` })
      setSaid(`${calibration.probe} is added, and is the meter of this phone.`)
      setForm(freshTypedMeter(form.quantity, [...knownProbes(), calibration.probe]))
      setTried(false)
    } catch (error) {
      setSaid(messageOf(error))
    }
    setBusy(false)
  }
  return (
    <section class="add-meter" aria-label="Add a meter that is read by eye">
      <h3>Add a meter that is read by eye</h3>
      <div class="fields">
        <Choice
          label="What it measures"
          value={isOwn ? OWN : form.quantity}
          choices={[
            ...fieldQuantities.map(({ name, label }) => ({ value: name, label })),
            { value: OWN, label: 'something else' },
          ]}
          onValue={(quantity) => setForm(freshTypedMeter(quantity === OWN ? '' : quantity, knownProbes()))}
        />
        {isOwn && <Field label="Its name" hint="such as slope_angle" {...line('quantity')} />}
        {isOwn && <Field label="Unit" width="8rem" {...line('unit')} />}
        <Field label="How" suggestions={usualWays[form.quantity]} {...line('way')} />
        <Field label="Depth, cm" kind="number" width="7rem" {...line('depth')} />
        <Field label="Height, m" kind="number" width="7rem" {...line('height')} />
        <Field
          label={`Accuracy, ±${unit === '' || unit === 'pH' ? '' : ` ${unit}`}`}
          kind="number"
          width="7rem"
          hint="as printed on it"
          {...line('accuracy')}
        />
        <Field label="Name of the meter" {...line('probe')} />
      </div>
      <p class="form-ways">
        <button type="button" id="add-typed-meter" disabled={isBusy} onClick={() => void add()}>
          Add this meter
        </button>
      </p>
      <p role="status">{said}</p>
    </section>
  )
}
