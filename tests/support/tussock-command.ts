import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { afterEach } from 'vitest'

export const builtCommand = fileURLToPath(new URL('../../.build/hub/cli/tussock.js', import.meta.url))

export interface Ended {
  code: number | null
  stdout: string
  stderr: string
}

const running = new Set<ChildProcess>()

// a command that a failed test waited for in vain does not outlive it
afterEach(() => {
  for (const child of running) child.kill('SIGKILL')
  running.clear()
})

/** Starts the built command, as a person would; the caller ends it. */
export function spawnTussock(
  args: readonly string[],
  env: NodeJS.ProcessEnv = {},
  user: { uid: number; gid: number } | null = null,
  stdin: 'ignore' | 'pipe' = 'ignore',
): ChildProcess {
  if (!existsSync(builtCommand))
    throw new Error(`There is no ${builtCommand}: run npm run build:hub before the tests.`)
  return spawn(process.execPath, [builtCommand, ...args], {
    stdio: [stdin, 'pipe', 'pipe'],
    env: { ...process.env, ...env },
    ...user,
  })
}

/** Runs the built command to its end: `runTussock('survey', 'load', file, '--data', folder)`. */
export function runTussock(...args: string[]): Promise<Ended> {
  const child = spawnTussock(args)
  running.add(child)
  const ended: Ended = { code: null, stdout: '', stderr: '' }
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    ended.stdout += text
  })
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    ended.stderr += text
  })
  return new Promise((resolve, reject) => {
    child.once('error', reject)
    child.once('close', (code) => {
      running.delete(child)
      resolve({ ...ended, code })
    })
  })
}
