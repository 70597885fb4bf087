import { useState } from 'preact/hooks'
import type { Probe, SurveyFile } from '../../hub/contract/survey.ts'
import { messageOf } from '../client.ts'
import { hubNowMs } from '../hub-clock.ts'
import { fetchSurvey } from '../notebook.ts'
import { Choice } from '../parts/field.tsx'
import { oneMethodText } from '../parts/method-text.ts'
import { quantityWords } from '../quantities.ts'
import { pathTo } from '../router.ts'
import { carryClient } from './carry-client.ts'

/** Says of a probe that it is carried, or that it stands: from now on its readings belong to no quadrat by themselves. */
export function CarriedChoice({ survey, isFirst }: { survey: SurveyFile; isFirst: boolean }) {
  const [said, setSaid] = useState('')
  const [busy, setBusy] = useState<string | null>(null)
  const connected = survey.probes.filter(
    ({ isTyped, withdrawn, connectedTo, reference }) =>
      !isTyped && !withdrawn && connectedTo === undefined && reference === undefined,
  )
  const boards = [...new Set(connected.map(({ board }) => board))]
  const [picked, setPicked] = useState<string | null>(null)
  const board = picked ?? (boards.length === 1 ? boards[0]! : '')
  const change = async (probe: Probe, isCarried: boolean) => {
    setBusy(probe.id)
    const { isCarried: _before, ...standing } = probe
    try {
      await carryClient.place(survey.id, {
        probe: isCarried ? { ...standing, isCarried } : standing,
        quadrat: null,
        from: new Date(hubNowMs()).toISOString(),
      })
      setSaid(isCarried ? `${probe.id} is carried from now on.` : `${probe.id} is not carried any more.`)
      await fetchSurvey(survey.id)
    } catch (error) {
      setSaid(messageOf(error))
    }
    setBusy(null)
  }
  return (
    <section aria-label="Which probes are carried">
      {isFirst && (
        <>
          <h2>No meter is marked as carried yet</h2>
          <p>
            A carried meter belongs to no quadrat on the way. Its readings count only where it was held still
            and kept.
          </p>
        </>
      )}
      {connected.length === 0 && (
        <p>
          No probe is known yet. <a href={pathTo.boards}>Connect a board and place it</a> first.
        </p>
      )}
      {boards.length > 1 && (
        <Choice
          label="Which board do you carry?"
          value={board}
          choices={[
            ...(board === '' ? [{ value: '', label: 'choose' }] : []),
            ...boards.map((name) => ({ value: name, label: boardText(survey, connected, name) })),
          ]}
          onValue={setPicked}
        />
      )}
      <ul class="carry-probes">
        {connected
          .filter((probe) => probe.board === board)
          .map((probe) => (
            <li key={probe.id}>
              <span>
                <b>{probe.id}</b> {quantityWords(probe.quantity).label}
                <small>
                  {[oneMethodText(probe.method), whereNow(survey, probe)].filter(Boolean).join(' · ')}
                </small>
              </span>
              <button
                type="button"
                class="plain"
                disabled={busy !== null}
                data-carry={probe.id}
                aria-label={
                  probe.isCarried
                    ? `${probe.id} is not carried any more`
                    : `${probe.id}: this meter is carried`
                }
                onClick={() => void change(probe, !probe.isCarried)}
              >
                {probe.isCarried ? 'Not carried any more' : 'This meter is carried'}
              </button>
            </li>
          ))}
      </ul>
      <p role="status">{said}</p>
    </section>
  )
}

/** “moss-2, at Q2” */
function boardText(survey: SurveyFile, probes: readonly Probe[], name: string): string {
  const first = probes.find(({ board }) => board === name)
  return first ? `${name}, ${whereNow(survey, first)}` : name
}

/** Where it stands: marking it as carried lifts it from there. */
function whereNow(survey: SurveyFile, { id, isCarried }: Probe): string {
  if (isCarried) return 'carried'
  const nowMs = hubNowMs()
  const placed = survey.placements.findLast(
    ({ probe, from, to }) =>
      probe === id && Date.parse(from) <= nowMs && (to === undefined || Date.parse(to) > nowMs),
  )
  return placed?.quadrat ? `stands at ${placed.quadrat}` : 'in transit'
}
