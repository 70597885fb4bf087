import type { BoardPlan } from './board-plan.ts'
import type { ClassBench } from './class-bench.ts'
import type { TellParent } from './parent-lines.ts'
import { understandPut } from './put-request.ts'
import { putInWords } from './put-words.ts'
import type { RehearsalClock } from './rehearsal-clock.ts'
import type { TruthFile } from './truth-file.ts'

/** Does what a line of the parent asks, writes it into the truth and says so; or says why it cannot be done. */
export function answerPuts(
  plans: readonly BoardPlan[],
  bench: ClassBench,
  clock: RehearsalClock,
  truth: TruthFile,
  tell: TellParent,
): (line: string) => void {
  const quadrats = new Map(plans.map(({ name, spot }) => [name, spot.quadrat]))
  return (line) => {
    const put = understandPut(line, [...quadrats.keys()])
    if ('refused' in put) {
      tell({ kind: 'put-refused', text: put.refused })
      return
    }
    const { board, channel, medium } = put
    const at = Math.round(clock.now())
    const thermometer = bench.put(board, channel, medium, (at - clock.startMs) / 1000)
    truth.note({ kind: 'put', board, channel, ...medium, at })
    const text = putInWords(put, quadrats.get(board) ?? '', thermometer)
    tell({ kind: 'put-done', board, channel, where: medium.where, text })
  }
}
