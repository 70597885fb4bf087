import { rfc3339 } from '../clock.ts'
import type { AddClockCorrection } from '../contract/changes.ts'
import type { ClockCorrection, SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import type { ClockShift } from '../store/store.ts'

/** @returns the survey with the correction, and the id it was given: one more than the highest so far */
export function addClockCorrection(
  survey: SurveyFile,
  correction: AddClockCorrection,
  atMs: number,
): { survey: SurveyFile; id: string } {
  const before = survey.clockCorrections ?? []
  const highest = Math.max(0, ...before.map(({ id }) => Number(/^c(\d+)$/.exec(id)?.[1] ?? 0)))
  const id = `c${highest + 1}`
  return {
    survey: { ...survey, clockCorrections: [...before, { ...correction, id, at: rfc3339(atMs) }] },
    id,
  }
}

export function removeClockCorrection(survey: SurveyFile, id: string): SurveyFile {
  const left = (survey.clockCorrections ?? []).filter((correction) => correction.id !== id)
  if (left.length === (survey.clockCorrections ?? []).length)
    throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no clock correction "${id}".`)
  return { ...survey, clockCorrections: left }
}

/** The corrections of all surveys together; where two speak of the same moment, that of the survey named last counts. */
export function clockShifts(surveys: readonly SurveyFile[]): ClockShift {
  const byBoard = new Map<string, { fromMs: number; toMs: number; shiftMs: number }[]>()
  for (const survey of surveys)
    for (const { board, from, to, offsetSeconds } of survey.clockCorrections ?? []) {
      const list = byBoard.get(board) ?? []
      list.push({ fromMs: Date.parse(from), toMs: Date.parse(to), shiftMs: Math.round(offsetSeconds * 1000) })
      byBoard.set(board, list)
    }
  if (byBoard.size === 0) return () => 0
  return (board, boardMs) =>
    byBoard.get(board)?.findLast(({ fromMs, toMs }) => fromMs <= boardMs && boardMs < toMs)?.shiftMs ?? 0
}

/** Boards for which the corrections differ. */
export function boardsReclocked(
  before: readonly ClockCorrection[],
  after: readonly ClockCorrection[],
): string[] {
  const text = (corrections: readonly ClockCorrection[], board: string) =>
    JSON.stringify(
      corrections
        .filter((correction) => correction.board === board)
        .map(({ from, to, offsetSeconds }) => [from, to, offsetSeconds]),
    )
  const boards = new Set([...before, ...after].map(({ board }) => board))
  return [...boards].filter((board) => text(before, board) !== text(after, board))
}
