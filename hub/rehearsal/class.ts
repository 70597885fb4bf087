import { type ClassOptions, classOptions } from './class-options.ts'
import { tellParent } from './parent-lines.ts'
import { hearParent, whenParentLeaves } from './parent-watch.ts'
import { openPseudoTerminal } from './pseudo-terminal.ts'
import { rehearsalClock } from './rehearsal-clock.ts'
import { assembleClass } from './simulated-class.ts'
import { TruthFile } from './truth-file.ts'

/** at the end of `--for`, so long may the hub take to answer what is under way */
const lastAnswersRealMs = 10_000

try {
  await rehearse(classOptions(process.argv.slice(2), Date.now()))
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`)
  process.exit(2)
}

/**
 * The simulated class as a process of its own: tells its parent in JSON lines, see {@link tellParent}, and does what
 * its parent asks in such lines.
 */
async function rehearse(options: ClassOptions): Promise<void> {
  const truth = new TruthFile(options.truthPath)
  const clock = rehearsalClock(options.startMs, options.realStartMs, options.speed)
  const serialPossible = await canMakeTerminals()
  const group = assembleClass(options, clock, truth, tellParent, serialPossible)
  if (!serialPossible) {
    tellParent({
      kind: 'note',
      text: 'This machine has no program that makes pseudo-terminals (script or python3): all boards are on MQTT.',
    })
  }

  let isLeaving = false
  const leave = async (exitCode: number) => {
    if (isLeaving) return
    isLeaving = true
    group.quiet()
    await group.switchOff()
    truth.close()
    process.exit(exitCode)
  }
  hearParent((line) => group.hear(line))
  whenParentLeaves(() => void leave(0))

  await group.switchOn()
  if (options.forSeconds === null) return
  await sleepRealMs(clock.realMsUntil(options.startMs + options.forSeconds * 1000))
  // the last moment of the grid is the end itself: let its timers go first
  await sleepRealMs(20)
  group.quiet()
  const waiting = () => group.boards.reduce((sum, board) => sum + board.waiting, 0)
  const deadline = clock.realNow() + lastAnswersRealMs
  while (waiting() > 0 && clock.realNow() < deadline) await sleepRealMs(50)
  tellParent({ kind: 'done', ...truth.counts, unacknowledged: waiting() })
  await leave(0)
}

async function canMakeTerminals(): Promise<boolean> {
  const terminal = await openPseudoTerminal(() => {})
  terminal?.unplug()
  await terminal?.unplugged
  return terminal !== null
}

function sleepRealMs(realMs: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, realMs))
}
