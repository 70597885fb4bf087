import { bufferPh, type Fitted, type PhPoint, type Recipe, soilWater } from '../../../calibration/index.ts'
import type { PlotPoint } from '../fit/plot-points.ts'

/** A reference point as it stays on record. */
export interface RecordPoint extends PlotPoint {
  scatter: number | null
  n: number | null
  secondsToSteady: number | null
  lot: string | null
  expires: string | null
}

const BARE = {
  celsius: null,
  isCheck: false,
  isForced: false,
  scatter: null,
  n: null,
  secondsToSteady: null,
  lot: null,
  expires: null,
}

/** The points a stored recipe holds; a recipe of settings alone has none. */
export function recordPoints(recipe: Recipe): RecordPoint[] {
  switch (recipe.kind) {
    case 'ph-electrode':
      return recipe.points.map(bufferPoint)
    case 'wetness-span':
      return [
        {
          ...BARE,
          signal: recipe.drySignal,
          reference: 0,
          name: 'air-dry soil',
          scatter: recipe.dryScatter ?? null,
          n: recipe.n ?? null,
        },
        {
          ...BARE,
          signal: recipe.wetSignal,
          reference: 1,
          name: 'saturated soil',
          scatter: recipe.wetScatter ?? null,
          n: recipe.n ?? null,
        },
      ]
    case 'water-content-fit':
      return recipe.samples.flatMap((sample) => {
        const water = soilWater(sample)
        return 'refused' in water
          ? []
          : [
              {
                ...BARE,
                signal: sample.signal,
                reference: water.volumetricWaterContent,
                name: `oven: ${sample.wetGram} g wet, ${sample.dryGram} g dry, tin ${sample.tinGram} g, ring ${sample.ringCubicCentimetre} cm³`,
                isCheck: sample.role === 'check',
              },
            ]
      })
    case 'light-power':
    case 'light-span':
      return recipe.points.map(({ signal, lux }) => ({
        ...BARE,
        signal,
        reference: lux,
        name: lux === 0 ? 'covered sensor' : 'reference meter',
      }))
    case 'digital-temperature':
      return [
        ...(recipe.icePoint ?? []).map((signal) => ({ ...BARE, signal, reference: 0, name: 'melting ice' })),
        ...(recipe.secondPoint
          ? [
              {
                ...BARE,
                signal: recipe.secondPoint.reading,
                reference: recipe.secondPoint.reference,
                name: 'class thermometer',
                isCheck: true,
              },
            ]
          : []),
      ]
    case 'thermistor':
      return (recipe.points ?? []).map(({ ohm, celsius }) => ({
        ...BARE,
        signal: recipe.divider
          ? (recipe.divider.fullScaleCounts * ohm) / (recipe.divider.seriesOhm + ohm)
          : ohm,
        reference: celsius,
        name: celsius === 0 ? 'melting ice' : 'class thermometer',
      }))
    case 'cup-anemometer':
      return (recipe.pairs ?? []).map(({ hertz, metresPerSecond }) => ({
        ...BARE,
        signal: hertz * (recipe.countSeconds ?? 1),
        reference: metresPerSecond,
        name: metresPerSecond === 0 ? 'still air' : 'trusted anemometer',
      }))
    case 'line':
      return (recipe.points ?? []).map(({ signal, reference, scatter, n }) => ({
        ...BARE,
        signal,
        reference,
        name: 'reference',
        scatter: scatter ?? null,
        n: n ?? null,
      }))
    default:
      return []
  }
}

function bufferPoint(point: PhPoint): RecordPoint {
  const found =
    point.bufferSet === undefined || point.buffer === undefined
      ? null
      : bufferPh(point.bufferSet, point.buffer, point.temperatureCelsius)
  const fromTable = found === null || 'refused' in found ? Number.NaN : found.ph
  const bottle = [point.bufferSet, point.buffer === undefined ? undefined : `pH ${point.buffer}`]
    .filter((part) => part !== undefined)
    .join(' ')
  return {
    signal: point.millivolt,
    reference: point.ph ?? fromTable,
    name: point.ph === undefined ? bottle : `${bottle || 'buffer'}, value from the bottle`,
    celsius: point.temperatureCelsius,
    isCheck: point.role === 'check',
    isForced: point.forced === true,
    scatter: point.scatterMillivolt ?? null,
    n: point.n ?? null,
    secondsToSteady: point.secondsToStable ?? null,
    lot: point.lot ?? null,
    expires: point.expires ?? null,
  }
}

/** Unit the stored signals are in. */
export function recordSignalUnit(recipe: Recipe, fitted: Fitted | null): string {
  if ('signalUnit' in recipe && recipe.signalUnit !== undefined) return recipe.signalUnit
  return fitted?.signalUnits[0] ?? ''
}
