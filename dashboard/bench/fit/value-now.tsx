import type { Fields, Fitted } from '../../../calibration/index.ts'
import { conditionsOf } from './conditions.ts'
import { expandedOf } from './plot-geometry.ts'
import { benchDigits, withExpanded, withValueUnit } from './value-digits.ts'

/** What the signal of this moment means by a calibration, and how sure that is. */
export function ValueNow(props: {
  fitted: Fitted
  signal: number
  fields: Fields
  unit: string
  by: string
}) {
  const { fitted, signal, fields, unit, by } = props
  const read = fitted.valueAt(signal, conditionsOf(fitted, fields, unit))
  if (!('value' in read)) return <span>{read.message}</span>
  const expanded = expandedOf(read.standardUncertainty, read.degreesOfFreedom)
  return (
    <span>
      <b class="figures">
        {expanded !== null && expanded > 0
          ? withExpanded(read.value, expanded, fitted.unit)
          : withValueUnit(benchDigits(read.value, null, fitted.unit), fitted.unit)}
      </b>{' '}
      {by}
    </span>
  )
}
