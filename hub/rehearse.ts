import { type ChildProcess, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import type { PutProbe } from './contract/changes.ts'
import type { SerialPortSetting } from './contract/survey.ts'

export interface RehearsalSetting {
  seed: number
  speed: number
  faults: readonly string[]
  /** begin on the bench: nothing calibrated or placed yet */
  bench: boolean
  /** simulated seconds after which the class goes home; null: until stopped */
  forSeconds: number | null
}

export interface RehearsalEvents {
  survey(file: unknown): void
  port(setting: SerialPortSetting, board: string): void
  /** what the class says as it goes on: faults, notes, the end */
  said(line: Record<string, unknown>): void
}

export interface RunningClass {
  /** Puts a simulated probe somewhere. @returns what the class answers */
  put(wish: PutProbe): Promise<{ text: string; isRefused: boolean }>
  stop(): Promise<void>
}

/** The simulated class: a process of its own, which this one knows only by what it prints. */
export function startClass(
  setting: RehearsalSetting,
  at: { brokerPort: number; startMs: number; realStartMs: number; truthFile: string },
  events: RehearsalEvents,
): RunningClass {
  const program = fileURLToPath(new URL('./rehearsal/class.js', import.meta.url))
  const child: ChildProcess = spawn(
    process.execPath,
    [
      program,
      ...['--broker', `mqtt://127.0.0.1:${at.brokerPort}`],
      ...['--seed', String(setting.seed)],
      ...['--speed', String(setting.speed)],
      ...['--start', String(at.startMs)],
      ...['--real-start', String(at.realStartMs)],
      ...['--truth', at.truthFile],
      ...(setting.faults.length > 0 ? ['--faults', setting.faults.join(',')] : []),
      ...(setting.bench ? ['--bench'] : []),
      ...(setting.forSeconds === null ? [] : ['--for', String(setting.forSeconds)]),
    ],
    { stdio: ['pipe', 'pipe', 'inherit'] },
  )
  // answers come in the order asked
  const putting: ((answer: { text: string; isRefused: boolean }) => void)[] = []
  const over = new Promise<void>((resolve) => {
    child.once('exit', () => resolve())
    child.once('error', () => resolve())
  })
  createInterface({ input: child.stdout! }).on('line', (text) => {
    const line = JSON.parse(text) as Record<string, unknown>
    if (line['kind'] === 'survey') events.survey(line['survey'])
    else if (line['kind'] === 'port')
      events.port({ path: String(line['path']), baudRate: Number(line['baudRate']) }, String(line['board']))
    else if (line['kind'] === 'put-done' || line['kind'] === 'put-refused')
      putting.shift()?.({ text: String(line['text']), isRefused: line['kind'] === 'put-refused' })
    else events.said(line)
  })
  child.stdin!.on('error', () => {})
  return {
    put: (wish) =>
      new Promise((resolve) => {
        putting.push(resolve)
        child.stdin!.write(`${JSON.stringify({ kind: 'put', ...wish })}\n`)
      }),
    async stop() {
      child.stdin!.end()
      child.kill('SIGTERM')
      const timer = setTimeout(() => child.kill('SIGKILL'), 3000)
      await over
      clearTimeout(timer)
    },
  }
}
