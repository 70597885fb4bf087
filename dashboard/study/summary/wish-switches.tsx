import { studyWish, wishFor } from '../study-wish.ts'

/** How the summaries are to be made; it holds for every page of the study. */
export function WishSwitches({ survey }: { survey: string }) {
  const wish = studyWish(survey).value
  return (
    <fieldset class="wishes">
      <legend class="unseen">How the numbers are made</legend>
      <label>
        <input
          id="common-window"
          type="checkbox"
          checked={wish.window === 'common'}
          onChange={(event) => wishFor(survey, { window: event.currentTarget.checked ? 'common' : 'all' })}
        />
        <span>
          Only the time all were logging <small>fair when probes began at different hours</small>
        </span>
      </label>
      <label>
        <input
          type="checkbox"
          checked={wish.hydrogenIons}
          onChange={(event) => wishFor(survey, { hydrogenIons: event.currentTarget.checked })}
        />
        <span>
          pH from the mean of hydrogen ions as well{' '}
          <small>for water that mixes; for soil the mean of pH is right</small>
        </span>
      </label>
    </fieldset>
  )
}
