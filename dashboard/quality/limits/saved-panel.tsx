import { countText, numberText } from '../../format.ts'
import type { SavedQuality } from './save-quality.ts'

/** What the new limits changed: the clean sentence before and after, and how many readings went over. */
export function SavedPanel({ saved, onTakeBack }: { saved: SavedQuality; onTakeBack: () => void }) {
  const { before, after, sides } = saved
  const arrived = after.all - before.all
  return (
    <div
      class="saved-panel"
      role="status"
      data-saved-quality
      data-sides={sides ? sides.leftOut + sides.letIn : ''}
    >
      <p class="saved-sides">{sidesText(saved)}</p>
      <dl>
        <div>
          <dt>before</dt>
          <dd>{before.sentence}</dd>
        </div>
        <div>
          <dt>after</dt>
          <dd>{after.sentence}</dd>
        </div>
      </dl>
      {arrived > 0 && <p class="field-hint">{countText(arrived, 'reading')} arrived meanwhile.</p>}
      <button type="button" class="plain small" id="take-back-quality" onClick={onTakeBack}>
        Take this back
      </button>
    </div>
  )
}

function sidesText({ before, after, sides }: SavedQuality): string {
  if (sides === null)
    return `${numberText(before.clean, 0)} readings were clean before, ${numberText(after.clean, 0)} are now.`
  const { leftOut, letIn } = sides
  if (leftOut + letIn === 0) return 'No reading changed sides.'
  const parts = [
    leftOut > 0 ? `${numberText(leftOut, 0)} left out now` : '',
    letIn > 0 ? `${numberText(letIn, 0)} clean now` : '',
  ].filter((part) => part !== '')
  return `${countText(leftOut + letIn, 'reading')} changed sides: ${parts.join(', ')}.`
}
