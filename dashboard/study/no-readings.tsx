import { pathTo } from '../router.ts'

/** Where there is no clean reading yet: where readings come from, and where it is said why none counts. */
export function NoReadings({ survey }: { survey: string }) {
  return (
    <section class="study-empty">
      <p class="lead">No clean readings at a quadrat yet.</p>
      <p>
        Boards that talk are under <a href={pathTo.boards}>Boards</a>, and a carried meter is read under{' '}
        <a href={pathTo.carry(survey)}>Carry a meter</a>. When there are readings and none of them counts, the{' '}
        <a href={pathTo.survey(survey)}>page of the transect</a> says why: not placed, not calibrated, or
        flagged.
      </p>
    </section>
  )
}
