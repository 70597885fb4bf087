import { metresText } from '../../format.ts'
import type { Rejected } from './plan-form.ts'

/** Places that were drawn and given up, with the reason; each can be taken back. */
export function RejectedList(props: {
  rejected: readonly Rejected[]
  onRejected: (rejected: Rejected[]) => void
}) {
  const { rejected, onRejected } = props
  if (rejected.length === 0) return null
  return (
    <div class="plan-rejects">
      <h4>Drawn and not used</h4>
      <ul>
        {rejected.map((place) => (
          <li key={`${place.xMetres} ${place.yMetres}`} data-rejected={`${place.xMetres} ${place.yMetres}`}>
            <span>
              {metresText(place.xMetres)}, {metresText(place.yMetres)}: {place.reason}
            </span>
            <button
              type="button"
              class="plain take"
              onClick={() => onRejected(rejected.filter((each) => each !== place))}
            >
              Use it after all
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}
