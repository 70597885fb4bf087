import { metresText, valueText } from '../format.ts'
import { pathTo } from '../router.ts'
import { lateAgeOf } from '../standing.ts'
import { spreadCentres } from '../tape-geometry.ts'
import { ProfileLine } from './profile-line.tsx'
import { TapeTall } from './tape-tall.tsx'
import type { SheetProps } from './transect-picture.tsx'
import { ValueCell } from './value-cell.tsx'
import { zoneAt } from './zones.ts'

const TAPE_WIDTH = 84
const HEADING = 46
const LINE = 33
const PAUSE = 14

/** The tape runs down the page; beside each quadrat its newest values. The profiles come first, small. */
export function SheetTall(props: SheetProps) {
  const { survey, transect, quadrats, rows, channelAt, intervalOf, width, nowMs } = props
  const entry = HEADING + rows.length * LINE
  const height = Math.max(420, quadrats.length * (entry + PAUSE) + 20)
  const [fromY, toY] = [14, height - 14]
  const ppm = (toY - fromY) / transect.lengthMetres
  const wanted = quadrats.map((quadrat) => fromY + quadrat.distanceMetres * ppm)
  const centres = spreadCentres(wanted, entry + PAUSE, entry / 2, height - entry / 2)
  const profileWidth = width - 118
  const along = quadrats.map(
    (quadrat) => 8 + (quadrat.distanceMetres / transect.lengthMetres) * (profileWidth - 16),
  )
  const hasValues = rows.some((row) =>
    quadrats.some((quadrat) => typeof channelAt(quadrat.label, row.name)?.latest?.[4] === 'number'),
  )
  return (
    <>
      {quadrats.length > 1 && hasValues && (
        <div class="profiles">
          {rows.map((row) => {
            const channels = quadrats.map((quadrat) => channelAt(quadrat.label, row.name))
            return (
              <div class="profile-row" key={row.name}>
                <p>
                  <b>{row.short}</b>
                  <small>{rangeText(row.name, channels)}</small>
                </p>
                <ProfileLine at={along} channels={channels} width={profileWidth} height={46} />
              </div>
            )
          })}
          <p class="profile-ends" style={{ width: `${profileWidth}px` }}>
            <span>0 m</span>
            <span>{metresText(transect.lengthMetres)}</span>
          </p>
        </div>
      )}
      <div class="sheet-tall" style={{ height: `${height}px` }}>
        <TapeTall
          {...{ transect, quadrats, height, fromY, toY }}
          width={TAPE_WIDTH}
          entries={centres.map((centre) => centre - entry / 2 + HEADING / 2)}
        />
        <ul class="entries">
          {quadrats.map((quadrat, index) => (
            <li
              key={quadrat.label}
              data-quadrat={quadrat.label}
              style={{ top: `${(centres[index] ?? 0) - entry / 2}px`, left: `${TAPE_WIDTH}px` }}
            >
              <a class="entry" href={pathTo.quadrat(survey.id, quadrat.label)}>
                <span class="entry-head" style={{ height: `${HEADING}px` }}>
                  <b>{quadrat.label}</b>
                  <small>
                    {metresText(quadrat.distanceMetres)}
                    {zoneAt(transect, quadrat.distanceMetres)
                      ? `, ${zoneAt(transect, quadrat.distanceMetres)}`
                      : ''}
                  </small>
                  <span class="onward" aria-hidden="true">
                    ›
                  </span>
                </span>
                <dl>
                  {rows.map((row) => {
                    const channel = channelAt(quadrat.label, row.name)
                    return (
                      <div class="line" key={row.name} style={{ height: `${LINE}px` }}>
                        <ValueCell
                          quantity={row}
                          channel={channel}
                          lateAge={lateAgeOf(channel, nowMs, intervalOf(channel))}
                          hasLabel={true}
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
    </>
  )
}

function rangeText(quantity: string, channels: ReturnType<SheetProps['channelAt']>[]): string {
  const known = channels.flatMap((channel) =>
    channel?.latest && channel.latest[4] !== null && channel.latest[6] !== 4
      ? [{ value: channel.latest[4], unit: channel.valueUnit }]
      : [],
  )
  if (known.length === 0) return 'no values'
  const sorted = known.sort((one, other) => one.value - other.value)
  const [low, high] = [sorted[0]!, sorted.at(-1)!]
  const text = (entry: typeof low) => valueText(quantity, entry.unit, entry.value, null)
  if (text(low) === text(high)) return text(low)
  return `${text(low).replace(/\u00a0[^\u00a0]*[^\d\u202f.]$/, '')} – ${text(high).replace(/^pH\u00a0/, '')}`
}
