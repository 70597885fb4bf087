import type { WindBesideMast } from '../../../hub/contract/pairing.ts'
import { numberText } from '../../format.ts'

/** Wind at each quadrat beside the mast in the same minutes. */
export function WindTable({ wind }: { wind: readonly WindBesideMast[] }) {
  const speed = (value: number | null) => (value === null ? '–' : numberText(value, 2))
  return (
    <div class="pair-scroll">
      <table class="pair-table">
        <thead>
          <tr>
            <th scope="col">Quadrat</th>
            <th scope="col">Of the mast</th>
            <th scope="col">Here, m/s</th>
            <th scope="col">Mast, m/s</th>
            <th scope="col">Minutes</th>
          </tr>
        </thead>
        <tbody>
          {wind.map(({ quadrat, probe, ratio, minutes, meanMetresPerSecond, mastMetresPerSecond }) => (
            <tr key={`${quadrat} ${probe}`} data-wind-ratio={quadrat}>
              <th scope="row">
                {quadrat} <small>{probe}</small>
              </th>
              <td>
                {ratio === null ? (
                  minutes === 0 ? (
                    'no minute in which both were measured'
                  ) : (
                    'the mast was calm'
                  )
                ) : (
                  <b class="figures">{numberText(ratio * 100, 0)} %</b>
                )}
              </td>
              <td class="figures">{speed(meanMetresPerSecond)}</td>
              <td class="figures">{speed(mastMetresPerSecond)}</td>
              <td class="figures">{numberText(minutes, 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
