import { pathTo } from '../../router.ts'
import { type StudyStep, stepAfter } from './step-list.ts'

/** At the foot of a step: where the way goes on. */
export function NextStep({ survey, after }: { survey: string; after: StudyStep }) {
  const next = stepAfter(after)
  if (!next) return null
  return (
    <p class="study-next not-print">
      <a class="button" href={pathTo.chapter(survey, 'study', next.rest)}>
        Next: {next.title} ›
      </a>
    </p>
  )
}
