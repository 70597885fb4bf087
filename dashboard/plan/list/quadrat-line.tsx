import { useEffect, useRef } from 'preact/hooks'
import type { Quadrat } from '../../../hub/contract/survey.ts'
import { metresText, placeText } from '../../format.ts'
import type { PlanDraft } from '../use-plan-draft.ts'
import { QuadratEdit } from './quadrat-edit.tsx'

/** One quadrat: where it lies, and on request the means to change it. */
export function QuadratLine(props: {
  quadrat: Quadrat
  rule: number | null
  draft: PlanDraft
  isMeasured: boolean
  isOpen: boolean
  onOpen: (isOpen: boolean) => void
}) {
  const { quadrat, isOpen, onOpen } = props
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
          onClick={() => onOpen(!isOpen)}
        >
          {isOpen ? 'Close' : 'Change'}
        </button>
      </div>
      {isOpen && (
        <QuadratEdit
          quadrat={quadrat}
          rule={props.rule}
          draft={props.draft}
          isMeasured={props.isMeasured}
          onDone={() => onOpen(false)}
        />
      )}
    </li>
  )
}

function placeKey({ distanceMetres, offsetMetres, xMetres, yMetres }: Quadrat): string {
  return xMetres === undefined ? `${distanceMetres} ${offsetMetres ?? 0}` : `${xMetres} ${yMetres}`
}
