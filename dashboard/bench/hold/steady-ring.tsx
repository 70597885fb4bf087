import type { ComponentChildren } from 'preact'

const RADIUS = 88
const ROUND = 2 * Math.PI * RADIUS
const TICKS = 40

/** A tape laid in a ring: it closes as the signal settles. What it shows is also said in words. */
export function SteadyRing(props: { closed: number; isSteady: boolean; children: ComponentChildren }) {
  const laid = ROUND * Math.min(1, Math.max(0, props.closed))
  return (
    <div class={`ring${props.isSteady ? ' is-steady' : ''}`}>
      <svg viewBox="0 0 200 200" aria-hidden="true">
        <mask id="ring-laid" maskUnits="userSpaceOnUse" x="0" y="0" width="200" height="200">
          <circle
            class="ring-mask"
            cx="100"
            cy="100"
            r={RADIUS}
            transform="rotate(-90 100 100)"
            stroke-dasharray={`${laid} ${ROUND + 1}`}
          />
        </mask>
        <circle class="ring-ground" cx="100" cy="100" r={RADIUS} />
        <g mask="url(#ring-laid)">
          <circle class="ring-edge" cx="100" cy="100" r={RADIUS} />
          <circle class="ring-tape" cx="100" cy="100" r={RADIUS} />
          {Array.from({ length: TICKS }, (_, index) => (
            <path
              key={index}
              class="ring-tick"
              d={index % 5 === 0 ? 'M100 5.2v9.5' : 'M100 5.2v5'}
              transform={`rotate(${(index * 360) / TICKS} 100 100)`}
            />
          ))}
        </g>
        {props.isSteady && <path class="ring-done" d="M86 164l10 10 18-22" />}
      </svg>
      <div class="ring-inside">{props.children}</div>
    </div>
  )
}
