import { type ChildProcess, type SpawnOptions, spawn, spawnSync } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'
import { afterEach } from 'vitest'

/** The programs that tests stand on, and the Debian package each comes with. */
const packages = {
  mosquitto: 'mosquitto',
  mosquitto_pub: 'mosquitto-clients',
  socat: 'socat',
  sqlite3: 'sqlite3',
  script: 'bsdutils',
  python3: 'python3',
  sh: 'dash',
  mount: 'mount',
  umount: 'mount',
  'systemd-analyze': 'systemd',
  gcc: 'gcc',
} as const

export type NeededProgram = keyof typeof packages

const running = new Set<ChildProcess>()

afterEach(async () => {
  for (const child of [...running]) await endProgram(child)
})

/** Where a program is. @throws Error naming the package to install: a test without it must fail, not pass unseen */
export function neededProgram(name: NeededProgram): string {
  const folders = [...(process.env['PATH'] ?? '').split(delimiter), '/usr/sbin', '/sbin']
  for (const folder of folders) {
    try {
      accessSync(join(folder, name), constants.X_OK)
      return join(folder, name)
    } catch {
      // in the next folder, perhaps
    }
  }
  throw new Error(`The program ${name} is missing: apt install ${packages[name]}`)
}

/** Starts a program that is ended after the test. */
export function startProgram(
  name: NeededProgram,
  args: readonly string[],
  options: SpawnOptions = {},
): ChildProcess {
  const child = spawn(neededProgram(name), args, { stdio: 'pipe', ...options })
  running.add(child)
  child.once('close', () => running.delete(child))
  return child
}

/** Runs a program to its end. @returns what it printed @throws Error when it fails */
export function runProgram(
  name: NeededProgram,
  args: readonly string[],
  input: string | Buffer = '',
): string {
  const ended = spawnSync(neededProgram(name), args, { input })
  if (ended.status !== 0)
    throw new Error(
      `${name} ${args.join(' ')} ended with ${ended.status}: ${ended.stderr} ${ended.error ?? ''}`,
    )
  return ended.stdout.toString('utf8')
}

export function endProgram(child: ChildProcess, signal: NodeJS.Signals = 'SIGKILL'): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) {
    running.delete(child)
    return Promise.resolve()
  }
  return new Promise((resolve) => {
    child.once('close', () => resolve())
    child.kill(signal)
  })
}
