import type { SurveyFile } from '../../hub/contract/survey.ts'
import { pathTo } from '../router.ts'
import { fieldClient } from './field-client.ts'
import { Decision } from './leave/decision.tsx'
import { SilentList } from './silent-list.tsx'
import { TrapLine } from './traps/trap-line.tsx'
import { useAnswer } from './use-answer.ts'

/** The chapter's first page: may we go, who has fallen silent, which traps wait, and the ways on. */
export function FieldHome({ survey }: { survey: SurveyFile }) {
  const { answer, trouble } = useAnswer(survey.id, () => fieldClient.leave(survey.id, ''))
  const ways = [
    { href: pathTo.carry(survey.id), name: 'Carry a meter', what: 'quadrat by quadrat, three replicates' },
    { to: 'leave', name: 'Safe to leave?', what: 'what is missing, and the shortest way round' },
    { to: 'phones', name: 'On phones', what: 'the hub’s address as a QR code' },
    { to: 'traps', name: 'Traps and funnels', what: 'set, looked at, due' },
    { to: 'depart', name: 'Before we leave the school', what: 'boards, clocks, probes, disk, what to take' },
    { to: 'return', name: 'On return', what: 'what is complete, and the gaps' },
    { to: 'placements', name: 'Placements', what: 'who stood where, and putting it right' },
    { to: 'clocks', name: 'Clocks', what: 'a clock found wrong afterwards' },
    { to: 'pairing', name: 'Open sky and mast', what: 'relative light and reference wind' },
  ]
  return (
    <article class="field-page">
      <header class="field-head">
        <h1>In the field</h1>
        {trouble && (
          <p class="field-trouble" role="alert">
            {trouble}
          </p>
        )}
      </header>
      {answer && (
        <>
          <a class="field-decision-link" href={pathTo.chapter(survey.id, 'field', 'leave')}>
            <Decision leave={answer} />
          </a>
          {answer.traps.length + answer.staying.length > 0 && (
            <section class="field-block">
              <h2>Traps and funnels</h2>
              <ul class="field-list">
                {[...answer.traps, ...answer.staying].map((trap) => (
                  <TrapLine key={trap.trap.id} survey={survey.id} trap={trap} />
                ))}
              </ul>
            </section>
          )}
          <SilentList survey={survey} silent={answer.silent} />
        </>
      )}
      <nav aria-label="Pages of the chapter" class="field-ways">
        {ways.map(({ href, to, name, what }) => (
          <a key={name} href={href ?? pathTo.chapter(survey.id, 'field', to)}>
            <b>{name}</b>
            <small>{what}</small>
          </a>
        ))}
      </nav>
    </article>
  )
}
