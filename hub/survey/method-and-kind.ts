import { type Fitted, fitCalibration, isRefusal } from '../../calibration/index.ts'
import type { Method } from '../contract/quantity.ts'
import type { Calibration, SurveyFile } from '../contract/survey.ts'
import type { SurveyFault } from './read-survey-file.ts'

/** What of the method belongs to each quantity: without it unlike readings would be pooled. Common practice, no source. */
const methodNeeded: Record<string, { part: keyof Method; why: string }> = {
  soil_ph: { part: 'way', why: 'soil pH depends on how it is read: slurry and its ratio, or direct' },
  soil_moisture: { part: 'way', why: 'say which it is: relative wetness or volumetric, and of which soil' },
  illuminance: { part: 'heightMetres', why: 'light is read at a height: at the ground, or at 1 m' },
  soil_temperature: { part: 'depthCentimetres', why: 'soil temperature is read at a depth' },
  wind_speed: { part: 'heightMetres', why: 'wind is read at a height' },
}

const anyKind = ['already-a-value', 'line']
const kindsThatFit: Record<string, readonly string[]> = {
  soil_ph: ['ph-electrode', ...anyKind],
  soil_moisture: ['wetness-span', 'water-content-fit', 'permittivity', ...anyKind],
  illuminance: ['light-counts', 'light-power', 'light-span', ...anyKind],
  soil_temperature: ['digital-temperature', 'thermistor', 'platinum', ...anyKind],
  wind_speed: ['cup-anemometer', ...anyKind],
}

/** The method is part of the quantity, a calibration is of the probe's own quantity, and unlike values are never mixed. */
export function findMethodFaults(survey: SurveyFile): SurveyFault[] {
  const faults: SurveyFault[] = []
  for (const [index, { quantity, method }] of survey.probes.entries()) {
    const needed = methodNeeded[quantity]
    if (needed && method[needed.part] === undefined)
      faults.push({ path: `probes[${index}].method.${needed.part}`, message: `is needed: ${needed.why}` })
  }
  const quantityOf = new Map(survey.probes.map(({ id, quantity }) => [id, quantity]))
  const unitOf = new Map<string, { unit: string; id: string }>()
  for (const [index, calibration] of survey.calibrations.entries()) {
    const { probe, recipe, id } = calibration
    const quantity = quantityOf.get(probe) ?? ''
    const fitting = kindsThatFit[quantity]
    if (fitting && !fitting.includes(recipe.kind)) {
      const message = `"${recipe.kind}" does not calibrate ${quantity}; ${fitting.join(', ')} do`
      faults.push({ path: `calibrations[${index}].recipe.kind`, message })
      continue
    }
    const fitted = usable(calibration)
    if (!fitted) continue
    const before = unitOf.get(probe)
    if (before && before.unit !== fitted.unit) {
      const message = `gives ${fitted.unit}, but calibration "${before.id}" of the same probe gives ${before.unit}: unlike quantities are never mixed. Withdraw the other, or enter the probe anew`
      faults.push({ path: `calibrations[${index}].recipe`, message })
    } else unitOf.set(probe, { unit: fitted.unit, id })
  }
  return faults
}

function usable({ recipe, withdrawn }: Calibration): Fitted | null {
  const fitted = withdrawn ? null : fitCalibration(recipe)
  return fitted && !isRefusal(fitted) && fitted.verdict !== 'fail' ? fitted : null
}
