import type { ComponentChildren } from 'preact'
import type { Decision, SurveyFile } from '../../../hub/contract/survey.ts'
import { momentText, spanText } from '../../format-time.ts'
import { StandingMark } from '../../parts/marks.tsx'
import { quantityWords } from '../../quantities.ts'
import { pathTo } from '../../router.ts'
import { quadratsIn } from './decision-place.ts'
import { actionWords, spanWords } from './decision-words.ts'
import { MakeAgain } from './make-again.tsx'
import { TakeBack } from './take-back.tsx'

/** One decision: what, about which readings, why, who, when; and whether it still holds. */
export function DecisionEntry({ survey, decision }: { survey: SurveyFile; decision: Decision }) {
  const zone = survey.site.timeZone
  const { id, probe, action, takenBack } = decision
  const [fromMs, toMs] = [Date.parse(decision.from), Date.parse(decision.to)]
  const quantity = survey.probes.find((each) => each.id === probe)?.quantity
  const quadrats = quadratsIn(survey, decision)
  return (
    <li
      class={takenBack ? 'decision is-taken-back' : 'decision'}
      data-decision={id}
      data-action={action}
      data-taken-back={takenBack !== undefined}
    >
      <div class="decision-what">
        <h2>
          <span class="figures">{id}</span> {actionWords[action]}
        </h2>
        <p class="decision-reason">“{decision.reason}”</p>
        {takenBack && (
          <p class="tag tag-uncalibrated">
            <StandingMark standing="missing" />
            taken back {momentText(Date.parse(takenBack.at), zone)}
            {takenBack.by ? ` by ${takenBack.by}` : ''}
          </p>
        )}
      </div>
      <dl class="decision-facts">
        <Fact name="Readings of">
          {probe}
          {quantity ? `, ${quantityWords(quantity).label.toLowerCase().replace('ph', 'pH')}` : ''}
        </Fact>
        <Fact name="At">
          {quadrats.length === 0
            ? 'no quadrat'
            : quadrats.map((label, index) => (
                <span key={label}>
                  {index > 0 && ', '}
                  <a class="lesser" href={pathTo.quadrat(survey.id, label)}>
                    {label}
                  </a>
                </span>
              ))}
        </Fact>
        <Fact name="Span">
          {spanWords(fromMs, toMs, zone)} ({spanText(toMs - fromMs)})
        </Fact>
        <Fact name="Decided">
          {momentText(Date.parse(decision.at), zone)}
          {decision.by ? ` by ${decision.by}` : ', nobody put a group to it'}
        </Fact>
      </dl>
      {takenBack ? (
        <MakeAgain survey={survey.id} decision={decision} />
      ) : (
        <TakeBack survey={survey.id} decision={id} />
      )}
    </li>
  )
}

function Fact({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}
