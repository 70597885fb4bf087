import { metresText } from '../../format.ts'
import { whenChanged } from '../../parts/when-changed.tsx'

interface Props {
  label: string
  /** px, the left upper corner */
  x: number
  y: number
  side: number
  sideMetres: number
  isLifted: boolean
  isChosen: boolean
  hasLabel: boolean
}

/** One quadrat at its true size; a lifted one is crossed out. */
export const QuadratSquare = whenChanged(function QuadratSquare(props: Props) {
  const { label, x, y, side, isLifted, isChosen } = props
  return (
    <g
      class={`plan-square${isLifted ? ' is-lifted' : ''}${isChosen ? ' is-chosen' : ''}`}
      data-square={label}
      data-x={x}
      data-y={y}
    >
      <title>{`${label}, ${metresText(props.sideMetres)} square${isLifted ? ', lifted' : ''}`}</title>
      <rect x={x} y={y} width={side} height={side} />
      {isLifted && <path d={`M${x} ${y}l${side} ${side}m0 ${-side}l${-side} ${side}`} />}
      {props.hasLabel && (
        <text x={x + side / 2} y={side >= 30 ? y + side / 2 + 4 : y - 3}>
          {label}
        </text>
      )}
    </g>
  )
})
