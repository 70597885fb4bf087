import type { BoardLoss, Completeness, CompletenessCell } from '../../contract/field.ts'
import type { SpotValue } from '../../contract/spot.ts'
import type { SurveyFile, Wanted } from '../../contract/survey.ts'
import { carriedCell } from './carried-cell.ts'
import { type StandingHere, standingCell } from './standing-cell.ts'
import { isWantedWay, wantedOf } from './wanted-of.ts'

/** With less than this of the readings that were to come, a cell is only partly there. Common practice, no source. */
const ENOUGH = 0.9

/** What a cell asks about probes and clocks. */
export interface CellFacts {
  calibrated(probe: string, atMs: number): 'in force' | 'due' | 'none'
  boardOf(probe: string): string | undefined
  /** the board’s times were impossible in that span, and the hub’s were taken in their place */
  hasClockTrouble(board: string, fromMs: number, toMs: number): boolean
  /** a clock correction of the board is still being worked in */
  isClockPending(board: string): boolean
}

export interface CompletenessFacts extends CellFacts {
  survey: SurveyFile
  nowMs: number
  spots: readonly SpotValue[]
  standing: readonly (StandingHere & { quadrat: string })[]
  loss: readonly BoardLoss[]
}

/** Quadrat × wanted quantity: what is there, what can still be mended, and what is lost. */
export function completenessOf(facts: CompletenessFacts): Completeness {
  const { survey } = facts
  const { wanted, isGiven } = wantedOf(survey, facts.spots)
  const probes = new Map(survey.probes.map((probe) => [probe.id, probe]))
  const spots = byQuadrat(facts.spots, ({ spot }) => spot.quadrat)
  const standing = byQuadrat(facts.standing, (each) => each.quadrat)
  return {
    nowMs: facts.nowMs,
    isWantedGiven: isGiven,
    wanted,
    quadrats: survey.quadrats.map(({ label }) => label),
    cells: survey.quadrats.flatMap((quadrat) =>
      wanted.map((each) => {
        const isWay = (probe: string) => {
          const known = probes.get(probe)
          return known !== undefined && isWantedWay(each, known)
        }
        const here = {
          spots: (spots.get(quadrat.label) ?? []).filter(({ spot }) => isWay(spot.probe)),
          standing: (standing.get(quadrat.label) ?? []).filter(({ count }) => isWay(count.probe)),
        }
        return cellOf(quadrat.label, quadrat.lifted !== undefined, each, here, facts)
      }),
    ),
    loss: facts.loss.filter(({ messages }) => messages > 0),
  }
}

function byQuadrat<T>(list: readonly T[], quadratOf: (each: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const each of list) {
    const group = groups.get(quadratOf(each))
    if (group) group.push(each)
    else groups.set(quadratOf(each), [each])
  }
  return groups
}

function cellOf(
  quadrat: string,
  isLifted: boolean,
  wanted: Wanted,
  here: Pick<CompletenessFacts, 'spots' | 'standing'>,
  facts: CompletenessFacts,
): CompletenessCell {
  const { quantity, method, by } = wanted
  const found =
    by === 'carried' ? carriedCell(wanted, here.spots, facts) : standingCell(wanted, here.standing, facts)
  const isWanted = !isLifted && (wanted.quadrats?.includes(quadrat) ?? true)
  const cell = isWanted
    ? found
    : {
        ...found,
        missing: [],
        minutes: 0,
        remarks: isLifted ? [...found.remarks, 'the frame was taken up'] : found.remarks,
      }
  return { quadrat, quantity, method, by, state: stateOf(cell, isWanted), ...cell }
}

function stateOf(
  { got, needed, missing, standing }: Pick<CompletenessCell, 'got' | 'needed' | 'missing' | 'standing'>,
  isWanted: boolean,
): CompletenessCell['state'] {
  if (got === 0) return isWanted ? 'missing' : 'not wanted'
  const isEnough = standing.every(({ completeness }) => completeness === null || completeness >= ENOUGH)
  return got >= needed && missing.length === 0 && isEnough ? 'complete' : 'partly'
}
