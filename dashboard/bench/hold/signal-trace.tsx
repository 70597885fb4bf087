import type { HeldSample, SteadyRule } from '../../../calibration/index.ts'
import { spanText } from '../../format-time.ts'
import { windowOf } from './hold.ts'
import { traceOf } from './trace-geometry.ts'

const BOX = { width: 320, height: 76 }

/** The last minute or so of a signal, and the lane it must keep to. */
export function SignalTrace(props: {
  /** all that is remembered, also from before the probe was moved */
  samples: readonly HeldSample[]
  /** of this hold */
  held: readonly HeldSample[]
  rule: SteadyRule
}) {
  const { samples, held, rule } = props
  const trace = traceOf(samples, rule, windowOf(held, rule), BOX)
  return (
    <figure class="trace">
      <svg viewBox={`0 0 ${BOX.width} ${BOX.height}`} aria-hidden="true" preserveAspectRatio="none">
        {trace.lane && (
          <rect
            class="trace-lane"
            x={trace.windowX}
            width={BOX.width - trace.windowX}
            y={trace.lane.top}
            height={trace.lane.height}
          />
        )}
        <path class="trace-line" d={trace.path} />
        {trace.end && <circle class="trace-end" cx={trace.end.x} cy={trace.end.y} r="3.5" />}
      </svg>
      <figcaption>last {spanText(trace.seconds * 1000)}; the yellow lane is what is allowed</figcaption>
    </figure>
  )
}
