import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { momentText } from '../../format-time.ts'
import { hub, refreshAll } from '../../notebook.ts'
import { clocksClient } from './clocks-client.ts'
import { jumpOffers } from './jump-offers.ts'
import { offsetText } from './offset-entry.ts'

/** When the hub’s own clock was set while it ran: the corrections that follow, ready to be kept. */
export function JumpList(props: {
  survey: SurveyFile
  /** boards whose times come from the hub’s clock */
  boards: readonly string[]
  zone: string | undefined
  onSaid: (said: string) => void
}) {
  const { survey, boards, zone, onSaid } = props
  const [isBusy, setBusy] = useState(false)
  const jumps = hub.value?.clockJumps ?? []
  const offers = jumpOffers(jumps, boards, survey.clockCorrections ?? [])
  const keep = async (offer: (typeof offers)[number]) => {
    setBusy(true)
    try {
      for (const correction of offer.corrections) await clocksClient.add(survey.id, correction)
      onSaid(
        `${offer.corrections.map(({ board }) => board).join(', ')}: moved by ${offsetText(offer.jump.byMs / 1000)}.`,
      )
    } catch (error) {
      onSaid(messageOf(error))
    }
    refreshAll()
    setBusy(false)
  }
  if (jumps.length === 0) return null
  return (
    <section class="field-block" data-jumps={jumps.length}>
      <h2>The hub’s clock was set while it ran</h2>
      <ul class="field-list">
        {jumps.map((jump) => {
          const offer = offers.find((each) => each.jump === jump)
          return (
            <li key={jump.atMs}>
              <span class="field-text">
                <b>
                  by {offsetText(jump.byMs / 1000)} at {momentText(jump.atMs, zone)}
                </b>
                <small>
                  what it timed from {momentText(jump.sinceMs, zone)} to{' '}
                  {momentText(jump.atMs - jump.byMs, zone)} (as that clock showed) is wrong by as much
                </small>
              </span>
              {offer ? (
                <button type="button" data-keep-jump disabled={isBusy} onClick={() => void keep(offer)}>
                  Move the readings of {offer.corrections.map(({ board }) => board).join(', ')}
                </button>
              ) : (
                <em>{boards.length === 0 ? 'no board is timed by it' : 'put right'}</em>
              )}
            </li>
          )
        })}
      </ul>
    </section>
  )
}
