import { appendFileSync } from 'node:fs'
import { expect } from 'vitest'
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
  const score = { precision: right / (right + wrong), recall: right / (right + missed) }
  tell({ ...score, faulty: right + missed, flagged: right + wrong })
  return score
}

/** For `npm run quality:score`, which names a file: one JSON line a score. */
function tell(line: Record<string, number>): void {
  const path = process.env['TUSSOCK_SCORES']
  if (path !== undefined)
    appendFileSync(path, `${JSON.stringify({ test: expect.getState().currentTestName, ...line })}\n`)
}

export function flaggedShare(findings: readonly Finding[]): number {
  return (
    findings.filter((finding) => finding !== null && finding !== 'not evaluated').length / findings.length
  )
}
