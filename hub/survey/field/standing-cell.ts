import type { CellNeed, CompletenessCell, StandingCount } from '../../contract/field.ts'
import type { Wanted } from '../../contract/survey.ts'
import type { CellFacts } from './completeness.ts'
import { quantityInWords } from './wanted-of.ts'

type Found = Omit<CompletenessCell, 'quadrat' | 'quantity' | 'method' | 'by' | 'state'>

/** A probe that stands or stood at the quadrat, what came of it, and its newest reading. */
export interface StandingHere {
  count: StandingCount
  /** when it is judged: of its last reading, or now */
  atMs: number
  fromMs: number
  last: { value: number | null; unit: string; timeMs: number; flag: number; why: string | null } | null
}

/** A quantity that is logged by probes that stand at the quadrat. */
export function standingCell(wanted: Wanted, here: readonly StandingHere[], facts: CellFacts): Found {
  const name = quantityInWords(wanted.quantity)
  const needs = here.flatMap((each) => needsOf(each, name, facts))
  const probes = new Set(here.map(({ count }) => count.probe))
  const logged = new Set(here.flatMap(({ count }) => (count.received > 0 ? [count.probe] : [])))
  if (probes.size < wanted.replicates)
    needs.push({
      kind: 'probe',
      words:
        probes.size === 0
          ? `${name}: no probe stands here`
          : `${name}: ${probes.size} of ${wanted.replicates} probes stand here`,
      of: null,
    })
  const dated = here.map(({ count, atMs }) => facts.calibrated(count.probe, atMs))
  const troubled = here.map((each) => hasClockTrouble(each, facts))
  const newest = here
    .flatMap(({ last }) => (last !== null && last.value !== null ? [{ ...last, value: last.value }] : []))
    .sort((one, other) => other.timeMs - one.timeMs)[0]
  return {
    got: logged.size,
    needed: wanted.replicates,
    standing: here.map(({ count }) => count),
    isSteady: null,
    isCalibrated: here.length === 0 ? null : dated.every((state) => state === 'in force'),
    isClockKnown: logged.size === 0 ? null : !troubled.includes(true),
    last: newest ? { value: newest.value, unit: newest.unit, timeMs: newest.timeMs } : null,
    missing: needs,
    remarks: [
      ...here.flatMap(({ count }) => gapRemark(count)),
      ...(dated.includes('due') ? ['its calibration is older than it is trusted'] : []),
      ...(here.some(({ count, last }) => count.isThere && last?.flag === 3)
        ? ['its newest reading is suspect: look at it before you use it']
        : []),
    ],
    minutes: needs.length > 0 ? wanted.minutes : 0,
  }
}

function needsOf({ count, last, atMs, fromMs }: StandingHere, name: string, facts: CellFacts): CellNeed[] {
  const needs: CellNeed[] = []
  if (count.isThere && !count.isLogging)
    needs.push({ kind: 'board', words: `board ${count.board} is silent`, of: count.board })
  else if (count.isThere && count.received === 0)
    needs.push({
      kind: 'value',
      words: `${name}: board ${count.board} is heard, but nothing comes from ${count.probe}`,
      of: null,
    })
  else if (count.isThere && last?.flag === 4)
    needs.push({
      kind: 'value',
      words: `${name}: the newest reading of ${count.probe} failed${last.why === null ? '' : `, ${last.why}`}`,
      of: null,
    })
  if (facts.calibrated(count.probe, atMs) === 'none')
    needs.push({
      kind: 'calibration',
      words: `${count.probe} has no calibration that passed, so its ${name} does not count yet`,
      of: count.probe,
    })
  if (count.isThere && hasClockTrouble({ count, last, atMs, fromMs }, facts))
    needs.push({
      kind: 'clock',
      words: `the clock of board ${count.board} is not to be trusted: compare it while it is here`,
      of: count.board,
    })
  return needs
}

function hasClockTrouble({ count, fromMs, atMs }: StandingHere, facts: CellFacts): boolean {
  return facts.isClockPending(count.board) || facts.hasClockTrouble(count.board, fromMs, atMs)
}

function gapRemark({ gaps, probe }: StandingCount): string[] {
  if (gaps.length === 0) return []
  const minutes = Math.round(gaps.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0) / 60_000)
  return [
    `${probe}: ${gaps.length === 1 ? '1 gap' : `${gaps.length} gaps`}, ${minutes < 1 ? 'under 1' : minutes} min in all`,
  ]
}
