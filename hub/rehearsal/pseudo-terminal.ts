import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process'
import { hasListener } from './port-listener.ts'
import { type TerminalRecipe, terminalRecipes } from './terminal-recipes.ts'

const openingDeadlineMs = 4000

/** The board's end of a serial cable. */
export interface PseudoTerminal {
  /** what the other end opens as its serial port */
  readonly path: string
  readonly madeBy: string
  /** Bytes for the other end. */
  write(bytes: Uint8Array): void
  /** Bytes written and not yet taken over by the terminal. */
  pendingBytes(): number
  /** True while some process has the other end open; true as well where that cannot be known. */
  isListenedTo(): boolean
  /** Pulls the cable: the other end sees a hangup, and what it had not read may be lost. */
  unplug(): void
  /** Settles once the cable is out, however that came about. */
  readonly unplugged: Promise<void>
}

/**
 * Opens a real pseudo-terminal through a program of the machine.
 * @param onBytes  called with what the other end writes
 * @returns null when no program of the machine can make one
 */
export async function openPseudoTerminal(
  onBytes: (bytes: Buffer) => void,
  recipes: readonly TerminalRecipe[] = terminalRecipes(process.pid, process.platform),
): Promise<PseudoTerminal | null> {
  for (const recipe of recipes) {
    const terminal = await openBy(recipe, onBytes)
    if (terminal) return terminal
  }
  return null
}

function openBy(recipe: TerminalRecipe, onBytes: (bytes: Buffer) => void): Promise<PseudoTerminal | null> {
  const child = spawn(recipe.command, recipe.args, {
    stdio: 'pipe',
    // `script` runs its command by the shell named here
    env: { ...process.env, SHELL: '/bin/sh', LC_ALL: 'C' },
  })
  // writing to a terminal that is being pulled out fails, which is what pulling out means
  child.stdin.on('error', () => {})
  child.stderr.resume()
  const unplugged = new Promise<void>((resolve) => {
    child.once('error', () => resolve())
    child.once('exit', () => resolve())
  })

  return new Promise((resolve) => {
    let greeting = Buffer.alloc(0)
    const deadline = setTimeout(giveUp, openingDeadlineMs)
    function giveUp(): void {
      clearTimeout(deadline)
      child.kill('SIGKILL')
      resolve(null)
    }
    void unplugged.then(giveUp)
    child.stdout.on('data', function greet(bytes: Buffer) {
      greeting = Buffer.concat([greeting, bytes])
      const end = greeting.indexOf(0x0a)
      if (end < 0) return
      const match = /^(\/dev\/\S+) (\d+)/.exec(greeting.subarray(0, end).toString('latin1'))
      if (!match?.[1]) return giveUp()
      clearTimeout(deadline)
      child.stdout.off('data', greet)
      child.stdout.on('data', onBytes)
      resolve(terminalOf(child, recipe.name, match[1], [child.pid ?? 0, Number(match[2])], unplugged))
    })
  })
}

function terminalOf(
  child: ChildProcessWithoutNullStreams,
  madeBy: string,
  path: string,
  keeperPids: readonly number[],
  unplugged: Promise<void>,
): PseudoTerminal {
  return {
    path,
    madeBy,
    unplugged,
    write: (bytes) => void child.stdin.write(bytes),
    pendingBytes: () => child.stdin.writableLength,
    isListenedTo: () => hasListener(path, keeperPids),
    unplug: () => void child.kill('SIGKILL'),
  }
}
