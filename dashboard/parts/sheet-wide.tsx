import { metresText } from '../format.ts'
import { pathTo } from '../router.ts'
import { lateAgeOf } from '../standing.ts'
import { spreadCentres } from '../tape-geometry.ts'
import { methodText } from './method-text.ts'
import { ProfileLine } from './profile-line.tsx'
import { TapeWide } from './tape-wide.tsx'
import type { SheetProps } from './transect-picture.tsx'
import { ValueCell } from './value-cell.tsx'

/** px a column needs at the least; the labels of the rows get more where there is room */
export const LEAST_COLUMN = 76
export const LEAST_LABELS = 96
const HEADING = 58
const ROW = 104
const PROFILE = 50

/** The tape lies across the page; under each quadrat its column, in ruled rows, with the profile pencilled behind. */
export function SheetWide(props: SheetProps) {
  const { survey, transect, quadrats, rows, channelAt, intervalOf, nowMs } = props
  const labels = props.width >= 1000 ? 176 : LEAST_LABELS
  const width = Math.max(props.width, labels + 8 + quadrats.length * LEAST_COLUMN)
  const fromX = labels + 22
  const toX = width - 24
  const ppm = (toX - fromX) / transect.lengthMetres
  const wanted = quadrats.map((quadrat) => fromX + quadrat.distanceMetres * ppm)
  const column = Math.min(124, Math.max(LEAST_COLUMN, (width - labels - 8) / Math.max(1, quadrats.length)))
  const half = column / 2
  const columns = spreadCentres(wanted, column, labels + half, width - half)
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable with the keyboard
    <section class="sheet-scroll" tabIndex={0} aria-label="Transect, its quadrats and their newest values">
      <div class={width > props.width ? 'sheet is-long' : 'sheet'} style={{ width: `${width}px` }}>
        <span class="margin-rule" style={{ left: `${labels - 4}px` }} />
        <TapeWide {...{ transect, quadrats, width, fromX, toX, columns }} />
        <div class="rows" style={{ height: `${HEADING + rows.length * ROW}px` }}>
          {rows.map((row, index) => {
            const channels = quadrats.map((quadrat) => channelAt(quadrat.label, row.name))
            return (
              <div
                class="row"
                key={row.name}
                style={{ top: `${HEADING + index * ROW}px`, height: `${ROW}px` }}
              >
                <p class="row-label" style={{ width: `${labels - 12}px` }}>
                  <b>{labels > LEAST_LABELS ? row.label : row.short}</b>
                  {labels > LEAST_LABELS && <small>{methodText(channels)}</small>}
                </p>
                <ProfileLine at={columns} channels={channels} width={width} height={PROFILE} />
              </div>
            )
          })}
          <ul class="columns">
            {quadrats.map((quadrat, index) => (
              <li
                key={quadrat.label}
                data-quadrat={quadrat.label}
                style={{ left: `${(columns[index] ?? 0) - half}px`, width: `${column}px` }}
              >
                <a class="column" href={pathTo.quadrat(survey.id, quadrat.label)}>
                  <span class="column-head" style={{ height: `${HEADING}px` }}>
                    <b>{quadrat.label}</b>
                    <small>{metresText(quadrat.distanceMetres)}</small>
                  </span>
                  <dl>
                    {rows.map((row) => {
                      const channel = channelAt(quadrat.label, row.name)
                      return (
                        <div
                          class="cell"
                          key={row.name}
                          style={{ height: `${ROW}px`, paddingTop: `${PROFILE}px` }}
                        >
                          <ValueCell
                            quantity={row}
                            channel={channel}
                            lateAge={lateAgeOf(channel, nowMs, intervalOf(channel))}
                            hasLabel={false}
                          />
                        </div>
                      )
                    })}
                  </dl>
                </a>
              </li>
            ))}
          </ul>
        </div>
      </div>
    </section>
  )
}
