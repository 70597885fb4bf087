import type { ComponentChildren } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { Quadrat } from '../../../hub/contract/survey.ts'
import { metresText, placeText } from '../../format.ts'
import { whenChanged } from '../../parts/when-changed.tsx'

/** One quadrat: where it lies, and on request the means to change it. */
export const QuadratLine = whenChanged(function QuadratLine(props: {
  quadrat: Quadrat
  /** the means to change it; null: not asked for */
  edit: ComponentChildren | null
  onChoose: (label: string | null) => void
}) {
  const { quadrat, edit, onChoose } = props
  const isOpen = edit !== null
  const ref = useRef<HTMLLIElement>(null)
  useEffect(() => {
    if (isOpen) ref.current?.scrollIntoView({ block: 'nearest' })
  }, [isOpen])
  return (
    <li
      ref={ref}
      class={quadrat.lifted ? 'plan-quadrat is-lifted' : 'plan-quadrat'}
      data-quadrat-line={quadrat.label}
      data-at={placeKey(quadrat)}
    >
      <div class="plan-quadrat-head">
        <b class="figures">{quadrat.label}</b>
        <span>
          {placeText(quadrat)}, {metresText(quadrat.sideMetres)} square
          {quadrat.lifted && `. Lifted${quadrat.lifted.reason ? `: ${quadrat.lifted.reason}` : ''}`}
        </span>
        <button
          type="button"
          class="plain take"
          aria-expanded={isOpen}
          aria-label={`${isOpen ? 'Close' : 'Change'} ${quadrat.label}`}
          onClick={() => onChoose(isOpen ? null : quadrat.label)}
        >
          {isOpen ? 'Close' : 'Change'}
        </button>
      </div>
      {edit}
    </li>
  )
})

function placeKey({ distanceMetres, offsetMetres, xMetres, yMetres }: Quadrat): string {
  return xMetres === undefined ? `${distanceMetres} ${offsetMetres ?? 0}` : `${xMetres} ${yMetres}`
}
