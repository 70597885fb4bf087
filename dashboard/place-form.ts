import type { AddCalibration, PlaceProbe } from '../hub/contract/changes.ts'
import type { Method } from '../hub/contract/quantity.ts'
import type { ChannelNow } from '../hub/contract/reading.ts'
import type { SurveyFile } from '../hub/contract/survey.ts'

/** What a person fills in to put a channel's probe in its place. Numbers stay text until they are sent. */
export interface PlaceForm {
  quantity: string
  way: string
  depth: string
  height: string
  probe: string
  quadrat: string
  since: 'first heard' | 'now'
}

const PREFIXES: Record<string, string> = {
  soil_ph: 'ph',
  soil_moisture: 'wet',
  illuminance: 'lux',
  soil_temperature: 'tem',
  wind_speed: 'cup',
}

/** Ways common in schools and field ecology, to choose from or to overwrite. */
export const usualWays: Record<string, readonly string[]> = {
  soil_ph: [
    'direct insertion, wetted soil',
    'slurry 1:2.5 in water',
    'slurry 1:5 in water',
    'slurry 1:5 in 0.01 mol/L CaCl₂',
  ],
  soil_moisture: ['relative wetness, air-dry to saturated', 'volumetric, own soil'],
  illuminance: ['levelled dome', 'bare sensor, level'],
  soil_temperature: ['digital thermometer in the soil'],
  wind_speed: ['three cups'],
}

/** What a channel most likely measures, told from its unit and name. */
export function likelyQuantity(channel: string, unit: string): string {
  const name = channel.toLowerCase()
  if (unit === 'pH' || /^ph/.test(name)) return 'soil_ph'
  if (/moist|wet|soil_?water/.test(name)) return 'soil_moisture'
  if (unit === 'lx' || /light|lux|lum/.test(name)) return 'illuminance'
  if (unit === 'm/s' || unit === 'Hz' || /wind|cup/.test(name)) return 'wind_speed'
  if (unit === 'Cel' || /temp/.test(name)) return 'soil_temperature'
  if (unit === 'mV') return 'soil_ph'
  return ''
}

/** The first free name, such as `ph-3`. */
export function freeProbeName(quantity: string, taken: readonly string[]): string {
  const prefix = PREFIXES[quantity] ?? (quantity.split('_')[0] || 'probe')
  for (let number = 1; ; number++) if (!taken.includes(`${prefix}-${number}`)) return `${prefix}-${number}`
}

export function freshPlaceForm(
  channel: ChannelNow,
  survey: SurveyFile,
  takenProbes: readonly string[],
): PlaceForm {
  const quantity = likelyQuantity(channel.channel, channel.signalUnit)
  return {
    ...formForQuantity(quantity, takenProbes),
    quadrat: survey.quadrats[0]?.label ?? '',
    since: 'first heard',
  }
}

/** @param takenProbes  names in every survey of the hub: a probe is the same one in all of them */
export function formForQuantity(quantity: string, takenProbes: readonly string[]) {
  const isAbove = quantity === 'illuminance' || quantity === 'wind_speed'
  return {
    quantity,
    way: usualWays[quantity]?.[0] ?? '',
    depth: isAbove || quantity === '' ? '' : '5',
    height: quantity === 'wind_speed' ? '1.5' : quantity === 'illuminance' ? '0.3' : '',
    probe: freeProbeName(quantity, takenProbes),
  }
}

export function methodOf(form: Pick<PlaceForm, 'way' | 'depth' | 'height'>): Method {
  return {
    ...(form.way.trim() === '' ? {} : { way: form.way.trim() }),
    ...(form.depth.trim() === '' ? {} : { depthCentimetres: Number(form.depth) }),
    ...(form.height.trim() === '' ? {} : { heightMetres: Number(form.height) }),
  }
}

/** From the channel's very first reading on (a backlog's too), or from now on. */
export function placementFrom(
  form: PlaceForm,
  channel: Pick<ChannelNow, 'board' | 'channel' | 'firstMs'>,
  nowMs: number,
): PlaceProbe {
  const fromMs = form.since === 'first heard' ? (channel.firstMs ?? nowMs) : nowMs
  return {
    probe: {
      id: form.probe.trim(),
      quantity: form.quantity,
      method: methodOf(form),
      board: channel.board,
      channel: channel.channel,
    },
    quadrat: form.quadrat,
    from: new Date(fromMs).toISOString(),
  }
}

/** What of the method its quantity cannot do without: readings by unlike methods are never joined. */
export function methodMissing(form: PlaceForm): ('way' | 'depth' | 'height')[] {
  const needed = { soil_ph: 'way', soil_moisture: 'way', soil_temperature: 'depth' } as const
  const part =
    form.quantity === 'illuminance' || form.quantity === 'wind_speed'
      ? 'height'
      : needed[form.quantity as keyof typeof needed]
  return part !== undefined && form[part].trim() === '' ? [part] : []
}

/** The next free calibration name of a probe, such as `ph-3-cal-2`. */
export function freeCalibrationName(probe: string, survey: SurveyFile): string {
  const taken = survey.calibrations.map(({ id }) => id)
  for (let number = 1; ; number++)
    if (!taken.includes(`${probe}-cal-${number}`)) return `${probe}-cal-${number}`
}

export function calibrationOf(
  probe: string,
  survey: SurveyFile,
  validFrom: string,
  recipe: AddCalibration['recipe'],
): AddCalibration {
  return { id: freeCalibrationName(probe, survey), probe, validFrom, recipe }
}
