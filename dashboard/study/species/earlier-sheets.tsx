import type { StudySheet } from '../../../hub/contract/study.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'

interface Props {
  sheets: readonly StudySheet[]
  /** the one that counts */
  inUse: number | null
  isBusy: boolean
  onRemove: (sheet: StudySheet, isRemoved: boolean) => void
}

/** Every sheet that was given, newest first; each can be left out and put back. */
export function EarlierSheets({ sheets, inUse, isBusy, onRemove }: Props) {
  if (sheets.length === 0) return null
  return (
    <section class="study-block">
      <h2>Sheets given</h2>
      <ul class="study-lines">
        {sheets.map((sheet) => (
          <li key={sheet.id} data-sheet={sheet.id}>
            <span>
              <b>{sheet.name}</b> {momentText(Date.parse(sheet.at), siteZone.value)}
              {sheet.by ? `, by ${sheet.by}` : ''} — {standingOf(sheet, inUse)}
            </span>
            <button
              type="button"
              class="take plain"
              disabled={isBusy}
              onClick={() => onRemove(sheet, !sheet.isRemoved)}
            >
              {sheet.isRemoved ? 'Put it back' : 'Leave it out'}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}

function standingOf(sheet: StudySheet, inUse: number | null): string {
  if (sheet.id === inUse) return 'in use'
  if (sheet.isRemoved) return 'left out'
  return sheet.trouble === null ? 'an older one, kept' : 'cannot be read'
}
