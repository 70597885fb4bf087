import type { SilentBoard } from '../../contract/field.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { TYPED_BOARD } from '../../contract/wire-names.ts'
import type { Timelines } from '../timeline.ts'

/** A board is silent once it has said nothing for this many of its intervals. Common practice, no source. */
export const SILENT_AFTER_INTERVALS = 3
/** …of a board whose interval nobody has named */
const UNNAMED_INTERVAL_SECONDS = 60

/** @param lastHeardMs  null: never heard; `nowMs` UTC ms by the hub’s clock */
export function isBoardSilent(
  lastHeardMs: number | null,
  nowMs: number,
  intervalSeconds: number | undefined,
): boolean {
  if (lastHeardMs === null) return true
  return nowMs - lastHeardMs > SILENT_AFTER_INTERVALS * 1000 * (intervalSeconds ?? UNNAMED_INTERVAL_SECONDS)
}

/** Boards of a survey that have said nothing for three of their intervals, with what of them stands where. */
export function silentBoards(
  survey: SurveyFile,
  timelines: Timelines,
  lastHeardMs: ReadonlyMap<string, number | null>,
  nowMs: number,
): (SilentBoard & { isInUse: boolean })[] {
  const probes = survey.probes.filter(({ isTyped, withdrawn }) => !isTyped && !withdrawn)
  const names = new Set([...survey.boards.map(({ name }) => name), ...probes.map(({ board }) => board)])
  names.delete(TYPED_BOARD)
  return [...names].sort().flatMap((board) => {
    const interval = survey.boards.find(({ name }) => name === board)?.sampleIntervalSeconds
    const heardMs = lastHeardMs.get(board) ?? null
    if (!isBoardSilent(heardMs, nowMs, interval)) return []
    const ofIt = probes.filter((probe) => probe.board === board)
    if (ofIt.length === 0 && heardMs === null) return []
    const quadrats = ofIt.flatMap((probe) => {
      const segment = timelines.at(board, probe.channel, nowMs)
      const stands =
        segment?.survey.id === survey.id && segment.probe.id === probe.id && segment.spot === null
      return stands && segment.quadrat ? [segment.quadrat.label] : []
    })
    const isReference = ofIt.some(({ reference }) => reference !== undefined)
    return [
      {
        board,
        lastHeardMs: heardMs,
        quadrats: [...new Set(quadrats)],
        isInUse: quadrats.length > 0 || isReference,
      },
    ]
  })
}
