import type { RelativeLightOfQuadrat } from '../../../hub/contract/pairing.ts'
import { countText, numberText } from '../../format.ts'
import { PairPlot } from './pair-plot.tsx'

/** Relative light of one quadrat: middle, spread, how many pairs it rests on, and why the others do not count. */
export function LightEntry({ light, zone }: { light: RelativeLightOfQuadrat; zone: string | undefined }) {
  const { quadrat, probe, readings, paired, medianPercent, lowerQuartilePercent, upperQuartilePercent } =
    light
  return (
    <section class="pair-entry" data-relative-light={quadrat} data-paired={paired}>
      <header>
        <h3>{quadrat}</h3>
        {medianPercent === null ? (
          <p class="pair-none">no relative light</p>
        ) : (
          <p>
            <b class="figures pair-median">{percentText(medianPercent)}</b> of the open sky
            {lowerQuartilePercent !== null && upperQuartilePercent !== null && paired > 1 && (
              <small>
                half of the pairs lie between {percentText(lowerQuartilePercent)} and{' '}
                {percentText(upperQuartilePercent)}
              </small>
            )}
          </p>
        )}
        <p class="pair-count">
          {probe}: {numberText(paired, 0)} of {countText(readings, 'pair')} count
        </p>
      </header>
      {light.remarks.length > 0 && (
        <ul class="pair-remarks">
          {light.remarks.map(({ text, n }) => (
            <li key={text}>
              {numberText(n, 0)} left out: {text}
            </li>
          ))}
        </ul>
      )}
      {light.examples.length > 0 && <PairPlot pairs={light.examples} zone={zone} />}
    </section>
  )
}

/** Two figures below ten per cent, three above: shade is told apart by tenths. */
function percentText(percent: number): string {
  return `${numberText(percent, percent < 10 ? 2 : percent < 100 ? 1 : 0)}\u00a0%`
}
