import type { Verdict } from '../../../calibration/index.ts'
import { StandingMark } from '../../parts/marks.tsx'

export const verdictWords: Readonly<Record<Verdict, string>> = {
  pass: 'pass',
  warn: 'pass with a warning',
  fail: 'fail',
}

const MARKS = { pass: 'clean', warn: 'suspect', fail: 'fail' } as const

/** A verdict as a shape and in words; the colour only repeats it. */
export function VerdictMark({ verdict, isLarge }: { verdict: Verdict; isLarge?: boolean }) {
  return (
    <span class={`verdict verdict-${verdict}${isLarge ? ' is-large' : ''}`} data-verdict={verdict}>
      <StandingMark standing={MARKS[verdict]} />
      {verdictWords[verdict]}
    </span>
  )
}
