import { answerPuts } from './answer-puts.ts'
import { benchFaults } from './bench-faults.ts'
import { benchAtFirst } from './bench-media.ts'
import { deadClock, goodClock } from './board-clock.ts'
import { type BoardPlan, planBoards, planTwin } from './board-plan.ts'
import { ClassBench } from './class-bench.ts'
import type { BoardSurroundings, ClassBoard } from './class-board.ts'
import type { ClassOptions } from './class-options.ts'
import { ColumnsBoard } from './columns-board.ts'
import { mediumAt } from './immersion.ts'
import { MqttBoard } from './mqtt-board.ts'
import type { TellParent } from './parent-lines.ts'
import { runPassingFaults, type SayFault } from './passing-faults.ts'
import { probeTruthsAt } from './probe-truths.ts'
import type { RehearsalClock } from './rehearsal-clock.ts'
import { sampleBoard } from './sampling.ts'
import { runSampling, type SamplingLoop } from './sampling-loop.ts'
import { chanceOf } from './seeded-chance.ts'
import { SerialBoard } from './serial-board.ts'
import { skyOf } from './sky.ts'
import { standingFaults } from './standing-faults.ts'
import { writeSurveyFile } from './survey-file.ts'
import type { TruthFile } from './truth-file.ts'

export interface SimulatedClass {
  readonly boards: readonly ClassBoard[]
  switchOn(): Promise<void>
  /** A line from the parent: puts a probe somewhere, or says why it cannot. */
  hear(line: string): void
  /** No further samples and faults; what is waiting is still sent. */
  quiet(): void
  switchOff(): Promise<void>
}

/** Puts a class together; the survey and the scenario are told and written before the first byte is sent. */
export function assembleClass(
  options: ClassOptions,
  clock: RehearsalClock,
  truth: TruthFile,
  tell: TellParent,
  serialPossible: boolean,
): SimulatedClass {
  const { seed, startMs, intervalSeconds, faults } = options
  const chance = chanceOf(seed)
  const sky = skyOf(chance)
  const plans = planBoards(options.quadratCount, serialPossible)
  const twin = faults.has('two-names') ? planTwin(plans) : null
  const standing = standingFaults(faults, chance, sky, plans, intervalSeconds)
  const begins = options.beginsOnBench ? 'on the bench' : 'in the field'
  const bench = new ClassBench(plans, benchFaults(faults, chance, plans, standing.dryBulbBoard), begins)
  const loops = new Map<BoardPlan, SamplingLoop>()
  let stopFaults = () => {}

  tell({ kind: 'survey', survey: writeSurveyFile(chance, plans, seed, startMs, intervalSeconds, begins) })
  truth.note({
    kind: 'scenario',
    seed,
    start: startMs,
    realStart: options.realStartMs,
    speed: options.speed,
    intervalSeconds,
    faults: [...faults],
    bench: options.beginsOnBench ? benchAtFirst : null,
    boards: plans.map(({ name, link, spot, hasClock }) => ({ name, link, quadrat: spot.quadrat, hasClock })),
    calibrations: Object.fromEntries(
      plans.map((plan) => [plan.spot.quadrat, probeTruthsAt(chance, plan.spot)]),
    ),
  })

  const say: SayFault = (fault, board, text) => {
    const line = {
      kind: 'fault',
      fault,
      board,
      at: Math.round(clock.now()),
      text: board === null ? text : `${board} ${text}`,
    } as const
    truth.note(line)
    tell(line)
  }
  const around: BoardSurroundings = {
    clock,
    truth,
    tell,
    changeInterval: (plan, seconds) => loops.get(plan)?.changeInterval(seconds),
  }
  const boards = [...plans, ...(twin ? [twin] : [])].map((plan) => boardOf(plan))

  function boardOf(plan: BoardPlan): ClassBoard {
    // another number at every start, so that a second rehearsal is not taken for a repeat of the first
    const draw = chance.uniform(`startup/${plan.name}${plan.isTwin ? '/twin' : ''}`, Math.trunc(startMs))
    const startup = 1 + Math.floor(draw * 2 ** 31)
    if (plan.link === 'columns') return new ColumnsBoard(plan, around)
    if (plan.link === 'serial') return new SerialBoard(plan, startup, around)
    const isDead = plan.name === standing.deadClockBoard
    const boardClock = isDead ? deadClock(startMs, 8 * intervalSeconds) : goodClock(options.speed)
    return new MqttBoard(plan, startup, options.broker, plan.hasClock ? boardClock : null, around)
  }

  function beginSampling(board: ClassBoard, endMs: number | null): void {
    const { plan } = board
    let wasInSun = false
    const loop = runSampling(clock, intervalSeconds, endMs, (instantMs, interval) => {
      const isInSun = isOutInSun(plan, (instantMs - startMs) / 1000)
      if (isInSun && !wasInSun && !plan.isTwin)
        say('saturated', plan.name, 'has the sun straight on its light sensor')
      wasInSun = isInSun
      board.take(sampleBoard(chance, sky, standing, plan, startMs, instantMs, interval, bench))
    })
    loops.set(plan, loop)
  }

  function isOutInSun(plan: BoardPlan, elapsedSeconds: number): boolean {
    const { where } = mediumAt(bench.immersions(plan, 'light'), elapsedSeconds)
    return where === 'soil' && standing.isInDirectSun(plan, elapsedSeconds)
  }

  return {
    boards,
    hear: answerPuts(plans, bench, clock, truth, tell),
    switchOn: async () => {
      await Promise.all(boards.map((board) => board.switchOn()))
      const endMs = options.forSeconds === null ? null : startMs + options.forSeconds * 1000
      for (const board of boards) beginSampling(board, endMs)
      tell({ kind: 'ready' })
      if (standing.dryBulbBoard) say('dry-bulb', standing.dryBulbBoard, 'has a pH electrode that dried out')
      if (standing.deadClockBoard) say('dead-clock', standing.deadClockBoard, 'has a clock without battery')
      const { crackedBulbBoard } = bench.faults
      if (crackedBulbBoard) say('cracked-bulb', crackedBulbBoard, 'has a pH electrode whose bulb is cracked')
      if (faults.has('swapped')) say('swapped', null, 'The bottles of buffer 4 and buffer 7 are swapped')
      if (faults.has('stale-10')) say('stale-10', null, 'The bottle of buffer 10 has stood open too long')
      if (twin) say('two-names', twin.name, `is also the name of a second board, at ${twin.spot.quadrat}`)
      stopFaults = runPassingFaults(faults, chance, clock, intervalSeconds, boards, say)
    },
    quiet: () => {
      stopFaults()
      for (const loop of loops.values()) loop.stop()
    },
    switchOff: async () => {
      await Promise.all(boards.map((board) => board.switchOff()))
    },
  }
}
