import { useState } from 'preact/hooks'
import { client, messageOf } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'

const REASONS = ['cracked bulb', 'will not settle', 'cable broken', 'lost'] as const

/** Takes a probe out of use with a reason, or back into it. */
export function WithdrawProbe(props: {
  survey: string
  probe: string
  isWithdrawn: boolean
  isAsking: boolean
  onAsking: (isAsking: boolean) => void
}) {
  const { survey, probe, isWithdrawn, isAsking, onAsking } = props
  const [reason, setReason] = useState('')
  const [trouble, setTrouble] = useState('')
  const send = async (why: string | null) => {
    try {
      await client.withdrawProbe(survey, probe, why)
      setTrouble('')
      setReason('')
      onAsking(false)
    } catch (error) {
      setTrouble(messageOf(error))
    }
    refreshAll()
  }
  const said = trouble !== '' && (
    <span class="bench-warning" role="alert">
      {trouble}
    </span>
  )
  if (isWithdrawn) {
    return (
      <>
        <button type="button" class="plain" data-take-back={probe} onClick={() => void send(null)}>
          Take back
        </button>
        {said}
      </>
    )
  }
  if (!isAsking) {
    return (
      <button type="button" class="plain" data-withdraw={probe} onClick={() => onAsking(true)}>
        Withdraw…
      </button>
    )
  }
  return (
    <form
      class="withdraw"
      onSubmit={(event) => {
        event.preventDefault()
        if (reason.trim() !== '') void send(reason.trim())
      }}
    >
      <label for={`why-${probe}`}>Why is {probe} withdrawn?</label>
      <span class="bench-picks">
        {REASONS.map((each) => (
          <button
            key={each}
            type="button"
            class="bench-pick"
            aria-pressed={reason === each}
            onClick={() => setReason(each)}
          >
            {each}
          </button>
        ))}
      </span>
      <input
        id={`why-${probe}`}
        name="reason"
        maxLength={400}
        autoComplete="off"
        value={reason}
        onInput={(event) => setReason(event.currentTarget.value)}
      />
      <span class="accept-ways">
        <button type="button" class="plain" onClick={() => onAsking(false)}>
          Keep it in use
        </button>
        <button type="submit" disabled={reason.trim() === ''}>
          Withdraw {probe}
        </button>
      </span>
      {said}
    </form>
  )
}
