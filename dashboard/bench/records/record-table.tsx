import type { Fitted } from '../../../calibration/index.ts'
import { residualOf } from '../fit/plot-points.ts'
import { differenceText, readingDigits, withValueUnit } from '../fit/value-digits.ts'
import { signalWithUnit } from '../hold/signal-digits.ts'
import type { RecordPoint } from './record-points.ts'

/** The points with everything that was written down about them. */
export function RecordTable(props: {
  fitted: Fitted | null
  points: readonly RecordPoint[]
  signalUnit: string
}) {
  const { fitted, points, signalUnit } = props
  const has = (name: 'celsius' | 'lot' | 'expires' | 'scatter' | 'secondsToSteady') =>
    points.some((point) => point[name] !== null)
  const unit = fitted?.unit ?? ''
  const isMarked = points.some(({ isCheck, isForced }) => isCheck || isForced)
  const decimals = unit === 'pH' ? 3 : undefined
  return (
    <table class="record-points">
      <thead>
        <tr>
          <th scope="col">Reference</th>
          <th scope="col">Value</th>
          {has('celsius') && <th scope="col">At</th>}
          {has('lot') && <th scope="col">Lot</th>}
          {has('expires') && <th scope="col">Use by</th>}
          <th scope="col">Signal</th>
          {has('scatter') && <th scope="col">Scatter, n</th>}
          {has('secondsToSteady') && <th scope="col">Steady after</th>}
          <th scope="col">Off the curve</th>
          {isMarked && <th scope="col">Mark</th>}
        </tr>
      </thead>
      <tbody>
        {points.map((point, index) => {
          const off = fitted ? residualOf(fitted, point) : null
          return (
            <tr key={index}>
              <th scope="row">{point.name}</th>
              <td>{withValueUnit(readingDigits(point.reference, unit), unit)}</td>
              {has('celsius') && <td>{point.celsius === null ? '' : `${point.celsius} °C`}</td>}
              {has('lot') && <td>{point.lot ?? 'not said'}</td>}
              {has('expires') && <td>{point.expires ?? 'not said'}</td>}
              <td>{signalWithUnit(point.signal, signalUnit)}</td>
              {has('scatter') && (
                <td>
                  {point.scatter === null ? '' : Number(point.scatter.toPrecision(2))}
                  {point.n === null ? '' : `, ${point.n}`}
                </td>
              )}
              {has('secondsToSteady') && (
                <td>{point.secondsToSteady === null ? 'never' : `${point.secondsToSteady} s`}</td>
              )}
              <td>{off === null ? '' : differenceText(off, unit, decimals)}</td>
              {isMarked && (
                <td>
                  {[point.isCheck ? 'check' : '', point.isForced ? 'kept while moving' : '']
                    .filter(Boolean)
                    .join(', ')}
                </td>
              )}
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
