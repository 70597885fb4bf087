import type { CellNeed, CompletenessCell } from '../../contract/field.ts'
import type { SpotValue } from '../../contract/spot.ts'
import type { Wanted } from '../../contract/survey.ts'
import type { CellFacts } from './completeness.ts'
import { quantityInWords } from './wanted-of.ts'

const NOT_STEADY = 'spot reading not steady'
const NOT_CALIBRATED = 'no passing calibration'

type Found = Omit<CompletenessCell, 'quadrat' | 'quantity' | 'method' | 'by' | 'state'>

/** A quantity that is read with a carried meter: clean replicates of the spot readings that count. */
export function carriedCell(wanted: Wanted, spots: readonly SpotValue[], facts: CellFacts): Found {
  const counted = spots.filter(({ spot }) => !spot.isTakenBack)
  const got = counted.reduce((sum, { n }) => sum + n, 0)
  const leftOut = counted.flatMap(({ replicates }) => replicates.flatMap((each) => each.leftOut ?? []))
  const unsteady = leftOut.filter((reason) => reason === NOT_STEADY).length
  const uncalibrated = leftOut.filter((reason) => reason === NOT_CALIBRATED).length
  const short = Math.max(0, wanted.replicates - got)
  const name = quantityInWords(wanted.quantity)
  const missing: CellNeed[] = []
  const ofNone = counted.filter(({ replicates }) =>
    replicates.some((replicate) => replicate.leftOut === NOT_CALIBRATED),
  )
  for (const probe of new Set(ofNone.map(({ spot }) => spot.probe)))
    missing.push({
      kind: 'calibration',
      words: `${probe} has no calibration that passed, so its ${name} does not count yet`,
      of: probe,
    })
  const toTake = Math.max(0, short - uncalibrated)
  if (toTake > 0)
    missing.push({ kind: 'measure', words: shortWords(name, got, wanted.replicates, toTake), of: null })
  const troubled = counted.filter((value) => hasClockTrouble(value, facts))
  const dated = counted.map((value) => facts.calibrated(value.spot.probe, startMs(value)))
  const newest = counted.reduce<SpotValue | null>(
    (latest, value) =>
      value.mean !== null && (!latest || startMs(value) > startMs(latest)) ? value : latest,
    null,
  )
  return {
    got,
    needed: wanted.replicates,
    standing: [],
    isSteady: counted.length === 0 ? null : unsteady === 0 || short === 0,
    isCalibrated: counted.length === 0 ? null : uncalibrated === 0 && !dated.includes('due'),
    isClockKnown: counted.length === 0 ? null : troubled.length === 0,
    last:
      newest === null || newest.mean === null
        ? null
        : { value: newest.mean, unit: newest.unit, timeMs: startMs(newest) },
    missing,
    remarks: [
      ...(unsteady > 0
        ? [`${replicates(unsteady)} had not settled and ${unsteady === 1 ? 'does' : 'do'} not count`]
        : []),
      ...otherReasons(leftOut),
      ...(dated.includes('due') ? ['its calibration was older than it is trusted'] : []),
      ...(troubled.length > 0 ? ['the time of its board was not known for sure'] : []),
      ...counted.flatMap(({ warnings }) => warnings),
    ],
    minutes: (wanted.minutes * toTake) / wanted.replicates,
  }
}

function startMs({ spot }: SpotValue): number {
  return Date.parse(spot.replicates[0]!.from)
}

function hasClockTrouble({ spot }: SpotValue, facts: CellFacts): boolean {
  const board = facts.boardOf(spot.probe)
  if (board === undefined || spot.isTyped) return false
  return (
    facts.isClockPending(board) ||
    spot.replicates.some(({ from, to }) => facts.hasClockTrouble(board, Date.parse(from), Date.parse(to)))
  )
}

function otherReasons(leftOut: readonly string[]): string[] {
  const others = leftOut.filter((reason) => reason !== NOT_STEADY && reason !== NOT_CALIBRATED)
  return [...new Set(others)].map((reason) => {
    const count = others.filter((other) => other === reason).length
    return reason === 'no readings'
      ? `${replicates(count)} without readings: they have not arrived yet`
      : `${replicates(count)} left out: ${reason}`
  })
}

function replicates(count: number): string {
  return count === 1 ? '1 replicate' : `${count} replicates`
}

function shortWords(name: string, got: number, needed: number, toTake: number): string {
  if (got === 0) return `${name}: not measured, ${replicates(needed)} to take`
  return `${name}: ${got} of ${needed} replicates, ${toTake} more to take`
}
