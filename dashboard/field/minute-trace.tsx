import type { SignalAt } from './which-moves.ts'

const BOX = { width: 120, height: 34 }
const PAD = 3
const MINUTE_MS = 60_000

/** The last minute of a signal, drawn as wide as it wandered. */
export function MinuteTrace({ signals }: { signals: readonly SignalAt[] }) {
  const path = minutePath(signals)
  return (
    <svg
      class="minute-trace"
      viewBox={`0 0 ${BOX.width} ${BOX.height}`}
      width={BOX.width}
      height={BOX.height}
      aria-hidden="true"
    >
      {path !== '' && <path d={path} />}
    </svg>
  )
}

function minutePath(signals: readonly SignalAt[]): string {
  const newest = signals.at(-1)
  if (!newest) return ''
  const shown = signals.filter(({ timeMs }) => newest.timeMs - timeMs <= MINUTE_MS)
  const sent = shown.map(({ signal }) => signal)
  const low = Math.min(...sent)
  const high = Math.max(...sent)
  // a signal that stands still is drawn flat through the middle
  const reach = high - low || Math.max(1, Math.abs(high))
  const x = (timeMs: number) =>
    BOX.width - PAD - ((newest.timeMs - timeMs) / MINUTE_MS) * (BOX.width - 2 * PAD)
  const y = (signal: number) =>
    high === low ? BOX.height / 2 : PAD + ((high - signal) / reach) * (BOX.height - 2 * PAD)
  return shown
    .map(
      ({ timeMs, signal }, index) =>
        `${index === 0 ? 'M' : 'L'}${x(timeMs).toFixed(1)} ${y(signal).toFixed(1)}`,
    )
    .join('')
}
