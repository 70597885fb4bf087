import { useState } from 'preact/hooks'
import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { valueText } from '../../format.ts'
import { clockText } from '../../format-time.ts'
import { useWidth } from '../../parts/use-width.ts'
import { momentOfSeconds, wallSeconds } from '../../quality/by-hand/wall-seconds.ts'
import { carriedMoment } from './carried-moment.ts'
import { MomentInput } from './moment-input.tsx'
import type { Stretch } from './stretches.ts'
import { placeOnStrip, type View } from './strip-geometry.ts'
import { traceDrawn } from './trace-geometry.ts'
import { useTrace } from './use-trace.ts'

const HEIGHT = 84
const CLOSE_MS = 5 * 60_000

/** When was it carried? A time to type or to slide to, over what the probe read meanwhile. */
export function MomentField(props: {
  survey: SurveyFile
  probe: Probe
  stretch: Stretch
  /** as a clock on the wall shows it */
  at: string
  nowMs: number
  zone: string | undefined
  wrong: string | undefined
  onAt: (at: string) => void
}) {
  const { survey, probe, stretch, at, nowMs, zone, wrong, onAt } = props
  const [closeToMs, setCloseTo] = useState<number | null>(null)
  const [ref, width] = useWidth<HTMLDivElement>()
  const whole: View = { fromMs: stretch.fromMs, toMs: Math.max(stretch.toMs ?? nowMs, stretch.fromMs + 1000) }
  const view: View =
    closeToMs === null
      ? whole
      : {
          fromMs: Math.max(whole.fromMs, closeToMs - CLOSE_MS),
          toMs: Math.min(whole.toMs, closeToMs + CLOSE_MS),
        }
  const trace = useTrace(survey.id, probe, stretch.quadrat === null ? [] : [stretch.quadrat], view)
  const atMs = momentOfSeconds(at, zone)
  const drawn = traceDrawn(trace?.points ?? [], view, width, HEIGHT)
  const jumpMs = carriedMoment(trace?.points ?? [])
  const take = (ms: number) => onAt(wallSeconds(ms, zone))
  const shown = (value: number) => valueText(probe.quantity, trace?.unit ?? '', value, null)
  return (
    <div class="moment-field">
      <MomentInput name="moment-at" label="When was it carried?" value={at} wrong={wrong} onValue={onAt} />
      <div ref={ref} class="moment-trace">
        <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
          <path d={drawn.path} class="moment-line" />
          {atMs !== null && (
            <path class="moment-cut" d={`M${placeOnStrip(atMs, view, width).toFixed(1)} 0v${HEIGHT}`} />
          )}
        </svg>
        <input
          type="range"
          aria-label="When it was carried, on the trace"
          aria-valuetext={atMs === null ? '' : clockText(atMs, zone)}
          min={Math.ceil(view.fromMs / 1000)}
          max={Math.max(Math.ceil(view.fromMs / 1000), Math.floor(view.toMs / 1000))}
          step={1}
          value={Math.round((atMs ?? view.fromMs) / 1000)}
          onInput={(event) => take(Number(event.currentTarget.value) * 1000)}
        />
        <p class="moment-ends">
          <span>{clockText(view.fromMs, zone)}</span>
          <span>
            {trace === null
              ? stretch.quadrat === null
                ? 'what a probe sends when it is nowhere is kept, but belongs to no chart'
                : 'fetching what it read…'
              : drawn.low === null || drawn.high === null
                ? 'nothing was read in this time'
                : `read ${shown(drawn.low)} to ${shown(drawn.high)}`}
          </span>
          <span>{clockText(view.toMs, zone)}</span>
        </p>
      </div>
      <p class="form-ways">
        {jumpMs !== null && (
          <button type="button" class="plain" data-jump onClick={() => take(jumpMs)}>
            Its largest jump: {clockText(jumpMs, zone)}
          </button>
        )}
        {closeToMs !== null ? (
          <button type="button" class="plain" onClick={() => setCloseTo(null)}>
            Show all of it
          </button>
        ) : (
          atMs !== null &&
          whole.toMs - whole.fromMs > 2 * CLOSE_MS && (
            <button type="button" class="plain" onClick={() => setCloseTo(atMs)}>
              Look closer
            </button>
          )
        )}
      </p>
    </div>
  )
}
