import type { Probe, SurveyFile } from '../../hub/contract/survey.ts'
import { quantityWords } from '../quantities.ts'

/** What is carried in one hand: the carried probes of one board, held together, or one meter that is read by eye. */
export interface Meter {
  id: string
  isTyped: boolean
  probes: Probe[]
}

/** The meters of a survey that may be carried: those that are withdrawn or unplugged are not among them. */
export function metersOf(survey: Pick<SurveyFile, 'probes'>): Meter[] {
  const meters = new Map<string, Meter>()
  for (const probe of survey.probes) {
    if (!mayCarry(probe)) continue
    const isTyped = probe.isTyped === true
    // a board and a meter that is read by eye may have the same name
    const id = isTyped ? `eye:${probe.id}` : probe.board
    const meter = meters.get(id)
    if (meter) meter.probes.push(probe)
    else meters.set(id, { id, isTyped, probes: [probe] })
  }
  return [...meters.values()]
}

function mayCarry(probe: Probe): boolean {
  const isInUse = probe.withdrawn === undefined && probe.connectedTo === undefined
  return isInUse && (probe.isCarried === true || probe.isTyped === true)
}

/** The meter this phone goes with: the one chosen before, or the only one there is; null while that is open. */
export function chosenMeter(meters: readonly Meter[], remembered: string | null): Meter | null {
  return meters.find(({ id }) => id === remembered) ?? (meters.length === 1 ? meters[0]! : null)
}

/** “Soil pH and soil temperature, on board sedge-1” */
export function meterText(meter: Meter): string {
  const labels = meter.probes.map(({ quantity }, index) => {
    const { label } = quantityWords(quantity)
    return index === 0 ? label : label.charAt(0).toLowerCase() + label.slice(1)
  })
  const what = labels.length < 2 ? labels.join() : `${labels.slice(0, -1).join(', ')} and ${labels.at(-1)}`
  return meter.isTyped ? `${what}, read by eye and typed in` : `${what}, on board ${meter.id}`
}

/** Short name of a meter for a button: its probes. */
export function meterName(meter: Meter): string {
  return meter.probes.map(({ id }) => id).join(' + ')
}
