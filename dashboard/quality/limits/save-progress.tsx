import { numberText } from '../../format.ts'
import type { SaveStep } from './save-quality.ts'

/** How far it is, in words and as a bar. */
export function SaveProgress({ step }: { step: SaveStep }) {
  if (step === 'counting') return <p role="status">Counting clean readings…</p>
  if (step === 'saving') return <p role="status">Saving…</p>
  const isCounting = step.total > 0
  return (
    <p role="status" data-reflagging={step.left}>
      All readings are being tested again
      {isCounting ? `: ${numberText(step.total - step.left, 0)} of ${numberText(step.total, 0)} ` : ' …'}
      {isCounting && <progress max={step.total} value={step.total - step.left} />}
    </p>
  )
}
