import type { Completeness, Leave, LeaveStop, LeaveThing, SilentBoard } from '../../contract/field.ts'
import type { Quadrat, SurveyFile } from '../../contract/survey.ts'
import type { TrapNow } from '../../contract/trap.ts'
import { leastWalking } from './least-walking.ts'
import { byUrgency } from './trap-now.ts'

/** Minutes that mending takes; common practice, no source. */
const MINUTES = { probe: 5, board: 3, calibration: 8, clock: 2, value: 3, trap: 5 } as const
/** A class with its kit gets this far in a minute. Common practice, no source. */
const WALK_METRES_PER_MINUTE = 40

export interface LeaveFacts {
  survey: SurveyFile
  completeness: Completeness
  /** boards that have been silent for three of their intervals */
  silent: readonly (SilentBoard & { isInUse: boolean })[]
  traps: readonly TrapNow[]
  reminders: Leave['reminders']
  /** the quadrat the class is at */
  at: string | null
}

interface Placed extends LeaveThing {
  /** where it can be done; empty: bound to no quadrat */
  quadrats: string[]
}

/** May the class go? What is missing first, by quadrat, in the order of least walking from where it is. */
export function safeToLeave(facts: LeaveFacts): Leave {
  const { survey, completeness, at } = facts
  const traps = facts.traps.filter(({ state }) => state === 'due' || state === 'overdue').sort(byUrgency)
  const staying = facts.traps.filter(({ state }) => state === 'set').sort(byUrgency)
  const things = [
    ...traps.map(trapThing),
    ...cellThings(survey, completeness),
    ...boardThings(facts, completeness),
  ]
  const byQuadrat = groupByQuadrat(things)
  const labelled = new Map(survey.quadrats.map((quadrat) => [quadrat.label, quadrat]))
  const here = at === null ? null : (labelled.get(at) ?? null)
  // animals wait for nobody's shortest way: their traps come first
  const waiting = new Set(
    traps
      .filter(({ state, holdsAnimals }) => state === 'overdue' && holdsAnimals)
      .map(({ trap }) => trap.quadrat),
  )
  const wanted = [...byQuadrat.keys()].flatMap((label) => labelled.get(label) ?? [])
  const first = leastWalking(
    wanted.filter(({ label }) => waiting.has(label)),
    here,
  )
  const then = leastWalking(
    wanted.filter(({ label }) => !waiting.has(label)),
    first.at(-1)?.quadrat ?? here,
  )
  const stops = [...first, ...then].map(({ quadrat, metres }) =>
    stopOf(survey, quadrat, metres, byQuadrat.get(quadrat.label) ?? []),
  )
  const elsewhere = things.filter(({ quadrats }) => quadrats.length === 0).map(bare)
  const minutes = [...stops, ...elsewhere].reduce((sum, each) => sum + each.minutes, 0)
  const hasPlan = completeness.cells.some(({ state }) => state !== 'not wanted')
  const maySafelyGo = things.length === 0 && hasPlan
  return {
    nowMs: completeness.nowMs,
    maySafelyGo,
    sentence:
      hasPlan || things.length > 0
        ? sentenceOf(things.length, minutes)
        : 'Nothing is wanted here yet, so this page cannot say whether anything is missing.',
    things: things.length,
    minutes,
    at,
    stops,
    elsewhere,
    silent: facts.silent.map(({ isInUse: _isInUse, ...board }) => board),
    traps,
    staying,
    reminders: facts.reminders,
  }
}

function sentenceOf(things: number, minutes: number): string {
  if (things === 0) return 'You may go'
  const about = Math.max(1, Math.round(minutes))
  return `Not yet: ${things === 1 ? '1 thing' : `${things} things`}, about ${about === 1 ? '1 minute' : `${about} minutes`}`
}

function trapThing({ trap, state, holdsAnimals }: TrapNow): Placed {
  const words = `${trap.method} ${state === 'overdue' ? 'is overdue' : 'is due'}${holdsAnimals ? ': animals may be waiting in it' : ''}`
  return { kind: 'trap', words, quantity: null, of: trap.id, minutes: MINUTES.trap, quadrats: [trap.quadrat] }
}

/** A silent board, a bad clock or a missing calibration is one thing, however many cells it spoils. */
function cellThings(survey: SurveyFile, { cells }: Completeness): Placed[] {
  const shared = new Map<string, Placed>()
  const own: Placed[] = []
  for (const { quadrat, quantity, missing, minutes, by } of cells)
    for (const { kind, words, of } of missing) {
      const takes = kind === 'measure' ? minutes : MINUTES[kind]
      if (of === null) {
        own.push({ kind, words, quantity, of, minutes: takes, quadrats: [quadrat] })
        continue
      }
      const key = `${kind} ${of}`
      const before = shared.get(key)
      if (!before)
        shared.set(key, {
          kind,
          words,
          quantity,
          of,
          minutes: takes,
          quadrats: by === 'carried' ? [] : [quadrat],
        })
      else if (by === 'standing' && !before.quadrats.includes(quadrat)) before.quadrats.push(quadrat)
    }
  const order = new Map(survey.quadrats.map(({ label }, index) => [label, index]))
  return [...own, ...shared.values()].sort(
    (one, other) => (order.get(one.quadrats[0] ?? '') ?? 0) - (order.get(other.quadrats[0] ?? '') ?? 0),
  )
}

/** Boards that are in use and silent, though no cell has said so. */
function boardThings({ silent }: LeaveFacts, { cells }: Completeness): Placed[] {
  const said = new Set(
    cells.flatMap(({ missing }) => missing.flatMap(({ kind, of }) => (kind === 'board' ? [of] : []))),
  )
  return silent
    .filter(({ board, isInUse }) => isInUse && !said.has(board))
    .map(({ board, quadrats }) => ({
      kind: 'board',
      words: `board ${board} is silent`,
      quantity: null,
      of: board,
      minutes: MINUTES.board,
      quadrats: [...quadrats],
    }))
}

/** What can be done at several quadrats is done where the class must go anyway. */
function groupByQuadrat(things: readonly Placed[]): Map<string, Placed[]> {
  const fixed = new Set(things.flatMap(({ quadrats }) => (quadrats.length === 1 ? quadrats : [])))
  const groups = new Map<string, Placed[]>()
  for (const thing of things) {
    const label = thing.quadrats.find((quadrat) => fixed.has(quadrat)) ?? thing.quadrats[0]
    if (label === undefined) continue
    const group = groups.get(label)
    if (group) group.push(thing)
    else groups.set(label, [thing])
  }
  return groups
}

function stopOf(
  survey: SurveyFile,
  { label }: Quadrat,
  metres: number | null,
  things: readonly Placed[],
): LeaveStop {
  return {
    quadrat: label,
    metres,
    minutes: things.reduce((sum, { minutes }) => sum + minutes, 0) + (metres ?? 0) / WALK_METRES_PER_MINUTE,
    groups: (survey.groups ?? [])
      .filter(({ quadrats }) => quadrats.includes(label))
      .map(({ label: group }) => group),
    things: things.map(bare),
  }
}

function bare({ quadrats: _quadrats, ...thing }: Placed): LeaveThing {
  return thing
}
