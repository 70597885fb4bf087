import { fromHalfWidth } from '../../calibration/index.ts'
import type { AddCalibration, PlaceProbe } from '../../hub/contract/changes.ts'
import { quantityFacts } from '../../hub/contract/quantity-facts.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { TYPED_BOARD } from '../../hub/contract/wire-names.ts'
import { shownFactor } from '../format.ts'
import { formForQuantity, methodMissing, methodOf, type PlaceForm } from '../place-form.ts'
import { readNumber } from '../read-number.ts'

/** A meter that is read by eye, as it is filled in. */
export interface TypedMeterForm extends Pick<PlaceForm, 'quantity' | 'way' | 'depth' | 'height' | 'probe'> {
  /** for a quantity of the class’s own; the known ones have theirs */
  unit: string
  /** ± as printed on the meter, in the unit shown */
  accuracy: string
}

export function freshTypedMeter(quantity: string, taken: readonly string[]): TypedMeterForm {
  return { ...formForQuantity(quantity, taken), unit: '', accuracy: '' }
}

/** Unit in which its values are stored. Volumetric water content is not relative wetness, though both are shown in %. */
export function unitOfMeter({ quantity, way, unit }: TypedMeterForm): string {
  if (quantity === 'soil_moisture') return /^volumetric/i.test(way.trim()) ? 'm3/m3' : '/'
  return quantityFacts(quantity)?.unit ?? unit.trim()
}

/** What is still to be said, in words, by field. */
export function typedMeterFaults(
  form: TypedMeterForm,
  survey: Pick<SurveyFile, 'probes'>,
): Partial<Record<keyof TypedMeterForm, string>> {
  const faults: Partial<Record<keyof TypedMeterForm, string>> = {}
  const name = form.probe.trim()
  if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/.test(name))
    faults.probe = 'Letters, digits, dot, dash and underscore only.'
  else if (survey.probes.some(({ id, isTyped }) => id === name && !isTyped))
    faults.probe = 'A probe with a connection has this name.'
  if (!/^[a-z][a-z0-9_]*$/.test(form.quantity)) faults.quantity = 'Say what it measures.'
  for (const part of methodMissing({ ...form, quadrat: '', since: 'now' }))
    faults[part] = 'Needed: values by unlike methods are never joined.'
  for (const part of ['depth', 'height'] as const) {
    const number = form[part].trim() === '' ? 0 : readNumber(form[part])
    if (number === null || number < 0) faults[part] = 'A number, or nothing.'
  }
  const accuracy = readNumber(form.accuracy)
  if (form.accuracy.trim() !== '' && (accuracy === null || accuracy <= 0))
    faults.accuracy = 'A number above 0, or nothing when it is not known.'
  return faults
}

/**
 * The probe, carried and placed nowhere, and the calibration that says its value needs no reckoning. The stated accuracy
 * is taken as the half-width of a rectangular distribution.
 * @see JCGM 100:2008 4.3.7
 * @param nowMs  hub time
 */
export function typedMeter(
  form: TypedMeterForm,
  survey: Pick<SurveyFile, 'from'>,
  nowMs: number,
): { placing: PlaceProbe; calibration: AddCalibration } {
  const id = form.probe.trim()
  const unit = unitOfMeter(form)
  const accuracy = readNumber(form.accuracy)
  const now = new Date(nowMs).toISOString()
  const decimal = (text: string) => text.replace(',', '.')
  const method = methodOf({ way: form.way, depth: decimal(form.depth), height: decimal(form.height) })
  return {
    placing: {
      probe: {
        id,
        quantity: form.quantity,
        method,
        board: TYPED_BOARD,
        channel: id,
        isTyped: true,
        isCarried: true,
      },
      quadrat: null,
      from: now,
    },
    calibration: {
      id: `${id}-cal-1`,
      probe: id,
      // a day early, whatever the site’s zone: values typed in the morning count too
      validFrom:
        survey.from === undefined
          ? new Date(nowMs - DAY_MS).toISOString()
          : new Date(Math.min(nowMs, Date.parse(`${survey.from}T00:00:00Z`)) - DAY_MS).toISOString(),
      note:
        accuracy === null ? 'read by eye; accuracy not known' : `read by eye; stated accuracy ± ${accuracy}`,
      recipe: {
        kind: 'already-a-value',
        unit,
        ...(accuracy === null ? {} : { standardUncertainty: fromHalfWidth(accuracy / shownFactor(unit)) }),
      },
    },
  }
}

const DAY_MS = 86_400_000
