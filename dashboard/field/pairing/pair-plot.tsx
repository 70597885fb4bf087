import type { LightPair } from '../../../hub/contract/pairing.ts'
import { numberText } from '../../format.ts'
import { minuteText } from '../../format-time.ts'
import { useWidth } from '../../parts/use-width.ts'
import { pairPlot } from './pair-geometry.ts'

const LUX = 96
const PERCENT = 60
const BETWEEN = 14
const MARGIN = 58

/** Pairs over time: the quadrat and the open sky above, the percentage below; those that do not count are hollow. */
export function PairPlot({ pairs, zone }: { pairs: readonly LightPair[]; zone: string | undefined }) {
  const [ref, width] = useWidth<HTMLDivElement>()
  const plot = pairPlot(pairs, Math.max(1, width - MARGIN), LUX, PERCENT)
  const below = LUX + BETWEEN
  const first = pairs[0]
  const last = pairs.at(-1)
  return (
    <div ref={ref} class="pair-plot">
      {width > MARGIN && first && last && (
        <svg width={width} height={below + PERCENT + 22} aria-hidden="true">
          <g transform={`translate(${MARGIN} 2)`}>
            <path
              class="pair-frame"
              d={`M0 0V${LUX}H${width - MARGIN}M0 ${below}v${PERCENT}H${width - MARGIN}`}
            />
            {plot.lux && (
              <g class="pair-scale">
                <text x={-6} y={10}>
                  {numberText(plot.lux.high, 0)}
                </text>
                <text x={-6} y={LUX / 2 + 4}>
                  lx
                </text>
                <text x={-6} y={LUX}>
                  {numberText(plot.lux.low, 0)}
                </text>
              </g>
            )}
            <g class="pair-scale">
              <text x={-6} y={below + 10}>
                {numberText(plot.percentTop, 0)} %
              </text>
              <text x={-6} y={below + PERCENT}>
                0
              </text>
            </g>
            {plot.places.map(({ x, quadratY, openY, percentY, isCounted }, index) => (
              <g key={`${pairs[index]?.timeMs}`} class={isCounted ? 'pair' : 'pair is-out'}>
                {openY !== null && <path class="pair-open" d={`M${x - 4} ${openY}h8M${x} ${openY - 4}v8`} />}
                {quadratY !== null && <circle class="pair-here" cx={x} cy={quadratY} r={3.2} />}
                {percentY !== null && (
                  <path class="pair-percent" d={`M${x} ${below + percentY - 4}l4 7h-8z`} />
                )}
              </g>
            ))}
            <g class="pair-scale pair-times">
              <text x={0} y={below + PERCENT + 17} text-anchor="start">
                {minuteText(first.timeMs, zone)}
              </text>
              <text x={width - MARGIN} y={below + PERCENT + 17}>
                {minuteText(last.timeMs, zone)}
              </text>
            </g>
          </g>
        </svg>
      )}
    </div>
  )
}
