import { dayText, minuteText } from '../../format-time.ts'
import { useWidth } from '../../parts/use-width.ts'
import { isSameStretch, stretchWords } from './stretch-words.ts'
import type { Stretch } from './stretches.ts'
import { boxesOf, placeOnStrip, ticksOf, type View } from './strip-geometry.ts'

const HEIGHT = 52
const FOOT = 22
/** a label narrower than this is left to the list of stretches */
const LETTER_WIDTH = 11
/** below this a strip cannot be hit with a finger, and the list stands alone */
const LEAST_WIDTH = 420

/** A probe's time to scale: where it stood, when it was carried, and its spot readings as marks. */
export function TimeStrip(props: {
  probe: string
  stretches: readonly Stretch[]
  spots: readonly { timeMs: number; quadrat: string }[]
  view: View
  zone: string | undefined
  chosen: Stretch | null
  onChoose: (stretch: Stretch) => void
}) {
  const { stretches, spots, view, zone, chosen, onChoose } = props
  const [ref, width] = useWidth<HTMLDivElement>()
  const days = dayText(view.fromMs, zone) !== dayText(view.toMs, zone)
  return (
    <div ref={ref} class="strip">
      {width >= LEAST_WIDTH && (
        // the list below it says the same and is reached by keyboard
        <svg
          width={width}
          height={HEIGHT + FOOT}
          viewBox={`0 0 ${width} ${HEIGHT + FOOT}`}
          aria-hidden="true"
        >
          {boxesOf(stretches, view, width).map(({ stretch, x, width: wide }) => (
            // biome-ignore lint/a11y/noStaticElementInteractions: the list of stretches is the way by keyboard
            <g
              key={`${stretch.fromMs}`}
              class={`stretch stretch-${stretch.kind}${isSameStretch(stretch, chosen) ? ' is-chosen' : ''}`}
              onClick={() => onChoose(stretch)}
            >
              <title>{stretchWords(stretch)}</title>
              <rect x={x + 0.5} y={1.5} width={Math.max(1, wide - 1)} height={HEIGHT - 3} />
              {stretch.kind === 'transit' && (
                <path d={`M${x} ${HEIGHT / 2}H${x + wide}`} class="stretch-way" />
              )}
              {wide > (stretch.quadrat?.length ?? 3) * LETTER_WIDTH + 8 && stretch.kind === 'at' && (
                <text x={x + wide / 2} y={HEIGHT / 2 + 6}>
                  {stretch.quadrat}
                </text>
              )}
            </g>
          ))}
          {spots
            .filter(({ timeMs }) => timeMs >= view.fromMs && timeMs <= view.toMs)
            .map(({ timeMs, quadrat }) => {
              const x = placeOnStrip(timeMs, view, width)
              return (
                <path key={`${timeMs} ${quadrat}`} class="strip-spot" d={`M${x} ${HEIGHT - 16}l6 8-6 8-6-8z`}>
                  <title>spot reading at {quadrat}</title>
                </path>
              )
            })}
          {ticksOf(view, width, days ? 96 : 64, zone).map((timeMs) => {
            const x = placeOnStrip(timeMs, view, width)
            return (
              <g key={timeMs} class="strip-tick">
                <path d={`M${x} ${HEIGHT}v5`} />
                {x > 20 && x < width - 20 && (
                  <text x={x} y={HEIGHT + FOOT - 3}>
                    {days ? `${dayText(timeMs, zone)} ` : ''}
                    {minuteText(timeMs, zone)}
                  </text>
                )}
              </g>
            )
          })}
        </svg>
      )}
    </div>
  )
}
