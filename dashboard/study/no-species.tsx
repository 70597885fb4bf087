import { pathTo } from '../router.ts'

/** Where there is no table of species yet: what it is needed for, and the ways to give one. */
export function NoSpecies({ survey, needed }: { survey: string; needed: string }) {
  return (
    <section class="study-empty">
      <p class="lead">No table of species yet. {needed}</p>
      <p class="form-ways">
        <a class="button" href={pathTo.chapter(survey, 'study', 'species')}>
          Give the table of species
        </a>
        <a class="button plain" href={pathTo.chapter(survey, 'study', 'type')}>
          Type it in from paper
        </a>
      </p>
    </section>
  )
}
