import type { SurveyFile } from '../../../hub/contract/survey.ts'

/** “I am at Q4”: the way round begins there. */
export function WhereWeAre(props: { survey: SurveyFile; at: string; onAt: (at: string) => void }) {
  const { survey, at, onAt } = props
  return (
    <div class="field-where">
      <label for="where-we-are">I am at</label>
      <select id="where-we-are" value={at} onChange={(event) => onAt(event.currentTarget.value)}>
        <option value="">not said</option>
        {survey.quadrats.map(({ label }) => (
          <option key={label} value={label} selected={label === at}>
            {label}
          </option>
        ))}
      </select>
    </div>
  )
}
