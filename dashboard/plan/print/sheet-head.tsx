import type { SurveyFile } from '../../../hub/contract/survey.ts'

/** Head of a paper sheet: survey, day, group, and room to write. */
export function SheetHead(props: { survey: SurveyFile; group: string; title: string }) {
  const { survey, group, title } = props
  return (
    <header class="paper-head">
      <h2>{title}</h2>
      <p>
        {survey.title}, {survey.site.name}
      </p>
      <p class="paper-blanks">
        <span>
          Date <i>{survey.from ?? ''}</i>
        </span>
        <span>
          Group <i>{group}</i>
        </span>
        <span>
          Begun at <i />
        </span>
        <span>
          Ended at <i />
        </span>
      </p>
    </header>
  )
}
