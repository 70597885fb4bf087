import { judgeForm } from './judge-form.ts'
import { judgeNumbers } from './judge-numbers.ts'
import { judgeRequests } from './judge-requests.ts'
import { type Point, wrong } from './point.ts'
import { allHeard, type Transcript } from './transcript.ts'

/** Holds what a board said against firmware-notes/PROTOCOL.md, point by point. Pure. */
export function judge(transcript: Transcript): Point[] {
  const all = allHeard(transcript)
  if (all.length === 0) return [wrong('speaks', 'nothing came')]
  return [...judgeForm(transcript, all), ...judgeNumbers(transcript, all), ...judgeRequests(transcript, all)]
}
