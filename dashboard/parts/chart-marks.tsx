import { useState } from 'preact/hooks'
import type { ChartMark } from '../../hub/contract/reading.ts'
import { placeMarks } from '../charts/mark-places.ts'
import type { PlotArea } from '../charts/series-chart.ts'
import { clockText } from '../format-time.ts'
import { DoneMark } from './marks.tsx'

/** As wide as what a finger hits, px. */
const APART = 44

/** Along the top of a chart: what was done to its probe, a symbol each; its words when pointed at, tapped or reached. */
export function ChartMarks(props: {
  marks: readonly ChartMark[]
  fromMs: number
  toMs: number
  area: PlotArea
  zone: string | undefined
}) {
  const { area, zone } = props
  const [open, setOpen] = useState<number | null>(null)
  const places = placeMarks(props.marks, props.fromMs, props.toMs, area.width, APART)
  if (places.length === 0) return null
  const told = places.find(({ marks }) => marks.some(({ timeMs }) => timeMs === open))
  return (
    <div class="chart-marks" style={{ marginLeft: `${area.left}px`, width: `${area.width}px` }}>
      {places.map(({ x, marks }) => {
        const first = marks[0]!
        const kinds = [...new Set(marks.map(({ kind }) => kind))]
        const show = () => setOpen(first.timeMs)
        return (
          <button
            key={first.timeMs}
            type="button"
            class="plain chart-mark"
            style={{ left: `${x - APART / 2}px` }}
            aria-label={marks.map((mark) => wordsOfMark(mark, zone)).join('; ')}
            data-mark={kinds.join(' ')}
            onPointerEnter={show}
            onPointerLeave={() => setOpen(null)}
            onFocus={show}
            onBlur={() => setOpen(null)}
            onClick={show}
          >
            {kinds.map((kind) => (
              <DoneMark key={kind} kind={kind} />
            ))}
          </button>
        )
      })}
      {told && (
        <ul
          class="chart-mark-slip"
          style={told.x > area.width / 2 ? { right: `${area.width - told.x}px` } : { left: `${told.x}px` }}
        >
          {told.marks.map((mark) => (
            <li key={`${mark.kind} ${mark.timeMs} ${mark.text}`}>{wordsOfMark(mark, zone)}</li>
          ))}
        </ul>
      )}
    </div>
  )
}

function wordsOfMark({ timeMs, text }: ChartMark, zone: string | undefined): string {
  return `${clockText(timeMs, zone)} ${text}`
}
