import type { FactorCaution } from '../../../hub/contract/study.ts'
import { StandingMark } from '../../parts/marks.tsx'
import { pathTo } from '../../router.ts'
import { cautionAdvice } from './caution-advice.ts'

/** What to know before comparing quadrats, each with what to do about it. */
export function CautionList({ survey, cautions }: { survey: string; cautions: readonly FactorCaution[] }) {
  if (cautions.length === 0) return null
  return (
    <section class="cautions" aria-label="Before you compare">
      <h2>Before you compare</h2>
      <ul>
        {cautions.map((caution) => {
          const { what, chapter, rest, link } = cautionAdvice[caution.kind]
          return (
            <li key={caution.text} data-caution={caution.kind}>
              <StandingMark standing="suspect" />
              <span>
                <b>{caution.text}</b> {what}{' '}
                {chapter && (
                  <a href={pathTo.chapter(survey, chapter, ...(rest === undefined ? [] : [rest]))}>{link}</a>
                )}
              </span>
            </li>
          )
        })}
      </ul>
    </section>
  )
}
