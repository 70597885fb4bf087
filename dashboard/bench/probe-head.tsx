import type { Probe, SurveyFile } from '../../hub/contract/survey.ts'
import { oneMethodText } from '../parts/method-text.ts'
import { quantityWords } from '../quantities.ts'
import { type BenchTask, benchPath } from './places.ts'

const TASKS: readonly { task: BenchTask; label: string }[] = [
  { task: 'calibrate', label: 'Calibrate' },
  { task: 'check', label: 'Check' },
  { task: 'records', label: 'Records' },
]

/** Which probe lies on the bench, and what is done with it. */
export function ProbeHead(props: { survey: SurveyFile; probe: Probe; task: BenchTask }) {
  const { survey, probe, task } = props
  const alike = survey.probes.filter(({ quantity }) => quantity === probe.quantity)
  const next = alike[(alike.indexOf(probe) + 1) % alike.length]
  return (
    <header class="bench-head">
      <p class="bench-ways">
        <a class="lesser" href={benchPath.sheet}>
          <span aria-hidden="true">←&nbsp;</span>All probes
        </a>
        {next && next !== probe && (
          <a class="lesser" href={benchPath.probe(survey.id, next.id, task)}>
            Next: {next.id}
            <span aria-hidden="true">&nbsp;→</span>
          </a>
        )}
      </p>
      <h1>
        {probe.id} <span class="of-quantity">{quantityWords(probe.quantity).label}</span>
      </h1>
      <p class="bench-about">
        {[
          probe.serialNumber ? `serial ${probe.serialNumber}` : 'no serial number',
          `${probe.board}, channel ${probe.channel}`,
          oneMethodText(probe.method),
        ]
          .filter(Boolean)
          .join(' · ')}
      </p>
      {probe.withdrawn && (
        <p class="bench-warning">
          This probe is withdrawn: {probe.withdrawn.reason}. It can be taken back on the list of all probes.
        </p>
      )}
      <nav class="bench-tasks" aria-label="What to do with this probe">
        {TASKS.map((each) => (
          <a
            key={each.task}
            class="bench-task"
            href={benchPath.probe(survey.id, probe.id, each.task)}
            {...(each.task === task ? { 'aria-current': 'page' as const } : {})}
          >
            {each.label}
          </a>
        ))}
      </nav>
    </header>
  )
}
