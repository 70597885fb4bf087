import type { Finding } from '../../../hub/quality/quality-test.ts'

export interface Score {
  precision: number
  recall: number
}

/** Adds up simulated runs, of which each reading is known to be faulty or not. */
export function scoreOf(
  runs: Iterable<{ findings: readonly Finding[]; isFaulty: readonly boolean[] }>,
  atLeast: 3 | 4 = 3,
): Score {
  let right = 0
  let wrong = 0
  let missed = 0
  for (const { findings, isFaulty } of runs)
    for (const [n, finding] of findings.entries()) {
      const isFlagged = finding !== null && finding !== 'not evaluated' && finding.flag >= atLeast
      if (isFlagged && isFaulty[n]) right += 1
      else if (isFlagged) wrong += 1
      else if (isFaulty[n]) missed += 1
    }
  return { precision: right / (right + wrong), recall: right / (right + missed) }
}

export function flaggedShare(findings: readonly Finding[]): number {
  return (
    findings.filter((finding) => finding !== null && finding !== 'not evaluated').length / findings.length
  )
}
