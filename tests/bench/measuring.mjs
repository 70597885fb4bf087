import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const folders = []
process.once('exit', () => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

export function freshFolder() {
  const folder = mkdtempSync(join(tmpdir(), 'tussock-bench-'))
  folders.push(folder)
  return folder
}

export function quantile(numbers, share) {
  const sorted = [...numbers].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]
}

export const median = (numbers) => quantile(numbers, 0.5)

/** Seconds that `work` takes. */
export async function secondsOf(work) {
  const begun = performance.now()
  await work()
  return (performance.now() - begun) / 1000
}

/**
 * Measures things by turns, so that a slow minute of the machine falls on all of them.
 * @param works by name, functions that give a number or an object of numbers
 * @returns by name, the median of each number
 */
export async function byTurns(runs, works) {
  const measured = {}
  for (let run = 0; run < runs; run++)
    for (const [name, work] of Object.entries(works)) {
      const answer = await work(run)
      measured[name] ??= []
      measured[name].push(typeof answer === 'number' ? { value: answer } : answer)
    }
  return Object.fromEntries(
    Object.entries(measured).map(([name, answers]) => {
      const medians = Object.keys(answers[0]).map((key) => [
        key,
        median(answers.map((answer) => answer[key])),
      ])
      return [name, Object.fromEntries(medians)]
    }),
  )
}

/** Bytes this process has handed to the system for writing so far (Linux). */
export function bytesWritten() {
  return Number(/^wchar: (\d+)/m.exec(readFileSync('/proc/self/io', 'utf8'))[1])
}

/** Memory of a process at this moment, and at its highest, MB (Linux). */
export function memoryOf(pid) {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8')
  const megabytes = (name) => Number(new RegExp(`^${name}:\\s+(\\d+) kB`, 'm').exec(status)[1]) / 1024
  return { now: megabytes('VmRSS'), highest: megabytes('VmHWM') }
}
