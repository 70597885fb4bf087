import type { z } from 'zod'
import type { SurveyFile } from '../contract/survey.ts'
import type { BoardPlan } from './board-plan.ts'
import { columnOrder } from './columns-line.ts'
import { invented } from './invented-site.ts'
import { electrodeMillivolt, type ProbeTruths, probeTruthsAt } from './probe-truths.ts'
import type { Chance } from './seeded-chance.ts'
import { type BufferName, technicalBufferPh } from './technical-buffers.ts'

type Written = z.input<typeof SurveyFile>
type Recipe = NonNullable<Written['calibrations']>[number]['recipe']

interface ProbeOutline {
  readonly channel: string
  readonly quantity: string
  readonly method: { way: string; depthCentimetres?: number; heightMetres?: number }
  readonly letters: string
  readonly recipe: (truths: ProbeTruths) => Recipe
}

/** in which the class calibrated its electrodes before the rehearsal */
const bathCelsius = 17

const minuteMs = 60_000
const usualAgeMs = 45 * minuteMs
/** of one electrode, that was left out when the others were calibrated */
const forgottenAgeMs = 40 * 24 * 60 * minuteMs

const outlines: readonly ProbeOutline[] = [
  {
    channel: 'ph',
    quantity: 'soil_ph',
    method: { way: 'direct insertion, wetted soil', depthCentimetres: 5 },
    letters: 'PH',
    recipe: ({ electrode }) => ({
      kind: 'ph-electrode',
      points: [bufferPoint(electrode, '7', 'lot 7-21'), bufferPoint(electrode, '4', 'lot 4-08')],
    }),
  },
  {
    channel: 'moisture',
    quantity: 'soil_moisture',
    method: { way: 'relative wetness, air-dry to saturated', depthCentimetres: 5 },
    letters: 'WET',
    recipe: ({ wetness }) => ({ kind: 'wetness-span', ...wetness }),
  },
  {
    channel: 'light',
    quantity: 'illuminance',
    method: { way: 'levelled dome', heightMetres: 0.3 },
    letters: 'LUX',
    recipe: ({ light }) => ({ kind: 'light-counts', sensor: 'bh1750', ...light }),
  },
  {
    channel: 'temperature',
    quantity: 'soil_temperature',
    method: { way: 'digital thermometer in the soil', depthCentimetres: 5 },
    letters: 'TEM',
    recipe: ({ thermometer }) => ({ kind: 'digital-temperature', ...thermometer }),
  },
  {
    channel: 'wind',
    quantity: 'wind_speed',
    method: { way: 'three cups', heightMetres: 1.5 },
    letters: 'CUP',
    recipe: ({ cups }) => ({ kind: 'cup-anemometer', ...cups }),
  },
]

/**
 * What the class would have typed in before going out: places, boards, probes, placements, calibrations. A class
 * that begins on the bench has calibrated and placed nothing yet.
 */
export function writeSurveyFile(
  chance: Chance,
  plans: readonly BoardPlan[],
  seed: number,
  startMs: number,
  intervalSeconds: number,
  begins: 'in the field' | 'on the bench' = 'in the field',
): Written {
  const start = new Date(startMs).toISOString()
  const forgotten = plans[Math.floor(plans.length / 2)]
  const calibratedAt = (plan: BoardPlan, { channel }: ProbeOutline) => {
    const isForgotten = plan === forgotten && channel === 'ph'
    return new Date(startMs - (isForgotten ? forgottenAgeMs : usualAgeMs)).toISOString()
  }
  const pairs = plans.flatMap((plan) =>
    outlines.map((outline) => ({ plan, outline, id: probeId(plan, outline) })),
  )
  const readyPairs = begins === 'on the bench' ? [] : pairs
  return {
    tussockSurvey: 1,
    id: `rehearsal-${seed}`,
    title: `Rehearsal ${seed}: ${invented.transectName}`,
    site: { name: invented.siteName, notes: invented.siteNotes },
    from: start.slice(0, 10),
    transects: [
      {
        id: invented.transectId,
        name: invented.transectName,
        lengthMetres: invented.lengthMetres,
        bearingDegrees: invented.bearingDegrees,
        markSpacingMetres: invented.markSpacingMetres,
        zones: invented.zones.map((zone) => ({ ...zone })),
      },
    ],
    quadrats: plans.map(({ spot }) => ({
      label: spot.quadrat,
      transect: invented.transectId,
      distanceMetres: spot.distanceMetres,
    })),
    boards: plans.map((plan) => ({
      name: plan.name,
      sampleIntervalSeconds: intervalSeconds,
      ...(plan.link === 'columns' ? { columns: columnOrder } : {}),
    })),
    probes: pairs.map(({ plan, outline, id }) => ({
      id,
      serialNumber: `${outline.letters}-${String(1000 + Math.floor(chance.between(0, 9000, `serial/${id}`)))}`,
      quantity: outline.quantity,
      method: outline.method,
      board: plan.name,
      channel: outline.channel,
      ...(outline.channel === 'ph' ? { temperatureChannel: 'temperature' } : {}),
    })),
    placements: readyPairs.map(({ plan, id }) => ({ probe: id, quadrat: plan.spot.quadrat, from: start })),
    calibrations: readyPairs.map(({ plan, outline, id }) => ({
      id: `${id}-cal-1`,
      probe: id,
      validFrom: calibratedAt(plan, outline),
      by: `group ${(plan.spot.index % 4) + 1}`,
      recipe: outline.recipe(probeTruthsAt(chance, plan.spot)),
    })),
  }
}

function probeId(plan: BoardPlan, outline: ProbeOutline): string {
  return `${outline.letters.toLowerCase()}-${plan.spot.index + 1}`
}

function bufferPoint(electrode: ProbeTruths['electrode'], buffer: '4' | '7', lot: string) {
  const label: BufferName = `buffer-${buffer}`
  const ph = technicalBufferPh(label, bathCelsius)
  const millivolt = Number(electrodeMillivolt(electrode, ph, bathCelsius).toFixed(1))
  return { bufferSet: 'technical', buffer, temperatureCelsius: bathCelsius, millivolt, lot }
}
