import type { ClassBoard } from './class-board.ts'
import type { FaultName } from './fault-names.ts'
import { garbageLine } from './garbage-lines.ts'
import type { RehearsalClock } from './rehearsal-clock.ts'
import type { Chance } from './seeded-chance.ts'

/**
 * @param board  null for a fault of the whole class
 * @param text  goes on from the board's name
 */
export type SayFault = (fault: FaultName, board: string | null, text: string) => void

interface Rhythm {
  /** in sampling intervals */
  readonly first: number
  readonly pause: number
  /** the hub needs real time to recover, however fast the simulated time runs */
  readonly atLeastRealMs: number
}

const rhythms: Readonly<Record<'unplug' | 'repeat' | 'garbage', Rhythm>> = {
  repeat: { first: 2.3, pause: 4, atLeastRealMs: 150 },
  garbage: { first: 2.6, pause: 3, atLeastRealMs: 150 },
  unplug: { first: 4.4, pause: 20, atLeastRealMs: 20_000 },
}

/** Faults of the link, that come and go. @returns a way to stop them */
export function runPassingFaults(
  faults: ReadonlySet<FaultName>,
  chance: Chance,
  clock: RehearsalClock,
  intervalSeconds: number,
  boards: readonly ClassBoard[],
  say: SayFault,
): () => void {
  const timers = new Set<NodeJS.Timeout>()
  const intervalRealMs = (intervalSeconds * 1000) / clock.speed

  const keepUp = (fault: keyof typeof rhythms, cause: (turn: number) => boolean) => {
    if (!faults.has(fault)) return
    const { first, pause, atLeastRealMs } = rhythms[fault]
    const after = (realMs: number, turn: number) => {
      const timer = setTimeout(() => {
        timers.delete(timer)
        // a board that nobody hears cannot fail audibly: the next one's turn, soon
        const pauseRealMs = cause(turn)
          ? Math.max(pause * intervalRealMs, atLeastRealMs)
          : Math.max(intervalRealMs / 2, 100)
        after(pauseRealMs, turn + 1)
      }, realMs)
      timers.add(timer)
    }
    after(first * intervalRealMs, 0)
  }

  keepUp('repeat', (turn) => {
    const board = chance.pick(
      boards.filter(({ plan }) => plan.link !== 'columns'),
      'fault/repeat',
      turn,
    )
    const isFresh = turn % 2 === 1
    if (!board?.repeatLatest(isFresh)) return false
    say(
      'repeat',
      board.plan.name,
      `sends its latest message again, ${isFresh ? 'times afresh' : 'byte for byte'}`,
    )
    return true
  })

  keepUp('garbage', (turn) => {
    const place = turn % boards.length
    const board = boards[place]
    if (!board) return false
    const { what, bytes } = garbageLine(board.plan, chance, place + Math.floor(turn / boards.length), turn)
    if (!board.sendGarbage(what, bytes)) return false
    say('garbage', board.plan.name, `sends rubbish: ${what}`)
    return true
  })

  const pluggable = boards
    .filter(({ plan }) => plan.link !== 'columns')
    .sort((one, other) => Number(one.plan.link === 'mqtt') - Number(other.plan.link === 'mqtt'))
  keepUp('unplug', (turn) => {
    const board = pluggable[turn % Math.min(3, pluggable.length)]
    const forRealMs = Math.max(2 * intervalRealMs, 2500)
    if (!board?.breakLink(forRealMs)) return false
    const how = board.plan.link === 'mqtt' ? 'is out of reach' : 'has its cable pulled mid-line'
    say('unplug', board.plan.name, `${how} for ${(forRealMs / 1000).toFixed(1)} s of real time`)
    return true
  })

  return () => {
    for (const timer of timers) clearTimeout(timer)
  }
}
