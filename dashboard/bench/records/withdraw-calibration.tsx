import { useState } from 'preact/hooks'
import type { QuadratMove } from '../../../hub/contract/readiness.ts'
import type { Calibration } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'
import { MovesTable } from '../fit/moves-table.tsx'

/** First what it would change, then the reason, then the button. It stays on record. */
export function WithdrawCalibration({ survey, calibration }: { survey: string; calibration: Calibration }) {
  const [isAsking, setAsking] = useState(false)
  const [moves, setMoves] = useState<readonly QuadratMove[] | null>(null)
  const [reason, setReason] = useState('')
  const [trouble, setTrouble] = useState('')
  const ask = () => {
    setAsking(true)
    client
      .previewCalibration(survey, { withdraw: calibration.id })
      .then((answer) => setMoves(answer.moves))
      .catch((error: unknown) => setTrouble(messageOf(error)))
  }
  const withdraw = async () => {
    try {
      await client.withdrawCalibration(survey, calibration.id, reason.trim())
      setAsking(false)
    } catch (error) {
      setTrouble(messageOf(error))
    }
    refreshAll()
  }
  if (!isAsking) {
    return (
      <button type="button" class="plain" onClick={ask}>
        Withdraw…
      </button>
    )
  }
  const id = `withdraw-${calibration.id}`
  return (
    <form
      class="withdraw"
      onSubmit={(event) => {
        event.preventDefault()
        if (reason.trim() !== '') void withdraw()
      }}
    >
      <h3>If it is withdrawn</h3>
      {moves === null ? trouble === '' && <p>Working it out…</p> : <MovesTable moves={moves} />}
      <label for={id}>Why is it withdrawn?</label>
      <input
        id={id}
        name="reason"
        maxLength={400}
        autoComplete="off"
        value={reason}
        onInput={(event) => setReason(event.currentTarget.value)}
      />
      {trouble !== '' && (
        <p class="bench-warning" role="alert">
          {trouble}
        </p>
      )}
      <p class="accept-ways">
        <button type="button" class="plain" onClick={() => setAsking(false)}>
          Leave it
        </button>
        <button type="submit" disabled={reason.trim() === ''}>
          Withdraw it
        </button>
      </p>
    </form>
  )
}
