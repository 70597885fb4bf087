import type { Captured, Fitted, Procedure } from '../../../calibration/index.ts'

/** A reference point as it is drawn, listed and printed. */
export interface PlotPoint {
  signal: number
  reference: number
  name: string
  celsius: number | null
  isCheck: boolean
  isForced: boolean
}

export function plotPointsOf(procedure: Procedure, points: readonly Captured[]): PlotPoint[] {
  return points.flatMap(({ signal, fields, role, isForced }) => {
    const reference = procedure.reference(fields)
    if (reference === null) return []
    const celsius = Number(String(fields['temperatureCelsius'] ?? '').replace(',', '.'))
    const isCheck = role === 'check' || (procedure.id === 'ice-point' && reference.value !== 0)
    return [
      {
        signal,
        reference: reference.value,
        name: reference.name,
        celsius: fields['temperatureCelsius'] === undefined || Number.isNaN(celsius) ? null : celsius,
        isCheck,
        isForced,
      },
    ]
  })
}

/** Value read by the curve minus reference, in the unit of the value; null where the curve gives none. */
export function residualOf(fitted: Fitted, point: PlotPoint): number | null {
  const read = fitted.valueAt(
    point.signal,
    point.celsius === null ? {} : { temperatureCelsius: point.celsius },
  )
  return 'value' in read ? read.value - point.reference : null
}
