import { whenChanged } from '../../parts/when-changed.tsx'

/** The order one under the other; each quadrat can be moved up and down. */
export const WalkList = whenChanged(function WalkList(props: {
  labels: readonly string[]
  onOrder: (labels: string[]) => void
}) {
  const { labels, onOrder } = props
  const move = (index: number, by: -1 | 1) => {
    const moved = [...labels]
    const [label] = moved.splice(index, 1)
    if (label !== undefined) moved.splice(index + by, 0, label)
    onOrder(moved)
  }
  return (
    <ol class="plan-turns">
      {labels.map((label, index) => (
        <li key={label}>
          <span class="figures">{label}</span>
          <button
            type="button"
            class="plain take"
            aria-label={`${label} earlier`}
            disabled={index === 0}
            onClick={() => move(index, -1)}
          >
            ↑
          </button>
          <button
            type="button"
            class="plain take"
            aria-label={`${label} later`}
            disabled={index === labels.length - 1}
            onClick={() => move(index, 1)}
          >
            ↓
          </button>
        </li>
      ))}
    </ol>
  )
})
