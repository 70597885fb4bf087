import type { Enough } from '../../../hub/contract/plan-api.ts'
import { digitsText, unitText, valueText } from '../../format.ts'
import { useWidth } from '../../parts/use-width.ts'

const HEIGHT = 240
const LEFT = 62
const RIGHT = 14
const TOP = 14
const BOTTOM = 40

/** The mean after each further quadrat, with its standard error, and the ±5 % about the last one. */
export function RunningMeanChart(props: {
  steps: Enough['steps']
  settledAt: number | null
  quantity: string
  unit: string
}) {
  const { steps, settledAt, quantity, unit } = props
  const [ref, width] = useWidth<HTMLDivElement>()
  const last = steps.at(-1)
  if (!last) return null
  const room = Math.abs(last.mean) * 0.05
  const ends = steps.flatMap(({ mean, standardError }) => [
    mean - (standardError ?? 0),
    mean + (standardError ?? 0),
  ])
  const low = Math.min(...ends, last.mean - room)
  const high = Math.max(...ends, last.mean + room)
  const span = high - low || 1
  const x = (n: number) =>
    steps.length === 1 ? LEFT : LEFT + ((n - 1) / (steps.length - 1)) * (width - LEFT - RIGHT)
  const y = (value: number) => TOP + ((high - value) / span) * (HEIGHT - TOP - BOTTOM)
  const every = Math.ceil(steps.length / Math.max(1, (width - LEFT) / 34))
  const line = steps.map(({ n, mean }) => `${x(n).toFixed(1)} ${y(mean).toFixed(1)}`).join('L')
  return (
    <div class="enough-chart" ref={ref}>
      {width > 0 && (
        <svg
          class="plan-drawing"
          width={width}
          height={HEIGHT}
          role="img"
          aria-label={`Running mean of ${steps.length} quadrats; the last is ${valueText(quantity, unit, last.mean, last.standardError)}`}
          data-running-mean={steps.map(({ mean }) => mean).join(' ')}
        >
          <rect
            class="enough-band"
            x={LEFT}
            y={y(last.mean + room)}
            width={width - LEFT - RIGHT}
            height={y(last.mean - room) - y(last.mean + room)}
          />
          <path class="enough-axis" d={`M${LEFT} ${TOP}V${HEIGHT - BOTTOM}H${width - RIGHT}`} />
          {[low, last.mean, high].map((value) => (
            <text key={value} class="at-end" x={LEFT - 7} y={y(value) + 4}>
              {digitsText(quantity, unit, value, span / 20)}
            </text>
          ))}
          {steps.map(({ n, mean, standardError }) => (
            <g key={n}>
              {standardError !== null && (
                <path
                  class="enough-error"
                  d={`M${x(n)} ${y(mean - standardError)}V${y(mean + standardError)}`}
                />
              )}
              <circle
                cx={x(n)}
                cy={y(mean)}
                r={n === settledAt ? 6 : 3.5}
                class={n === settledAt ? 'is-settled' : ''}
              />
              {(n - 1) % every === 0 && (
                <text x={x(n)} y={HEIGHT - BOTTOM + 17}>
                  {n}
                </text>
              )}
            </g>
          ))}
          <path class="enough-line" d={`M${line}`} />
          <text x={(LEFT + width - RIGHT) / 2} y={HEIGHT - 5}>
            quadrats, in the order of visiting
          </text>
          <text class="at-start" x={LEFT + 6} y={TOP + 6}>
            {unitText(unit)}
          </text>
        </svg>
      )}
    </div>
  )
}
