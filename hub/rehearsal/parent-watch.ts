import { fstatSync } from 'node:fs'
import { createInterface } from 'node:readline'

/**
 * Calls once when the program that started the rehearsal is gone or wants it to end: SIGTERM, SIGINT,
 * the end of standard input, or nobody reading standard output.
 */
export function whenParentLeaves(leave: (reason: string) => void): void {
  process.once('SIGTERM', () => leave('SIGTERM'))
  process.once('SIGINT', () => leave('SIGINT'))
  process.stdout.on('error', () => leave('standard output closed'))
  if (!isLine(0)) return
  process.stdin.on('error', () => leave('standard input closed'))
  process.stdin.once('end', () => leave('standard input closed'))
  process.stdin.resume()
}

/** Calls with every line the parent says on standard input; to be set up before anything reads it. */
export function hearParent(onLine: (line: string) => void): void {
  if (!isLine(0)) return
  createInterface({ input: process.stdin }).on('line', (line) => {
    if (line.trim() !== '') onLine(line)
  })
}

/** Whether the descriptor is a pipe or socket to another program; /dev/null and files end at once and say nothing. */
function isLine(descriptor: number): boolean {
  try {
    const about = fstatSync(descriptor)
    return about.isFIFO() || about.isSocket()
  } catch {
    return false
  }
}
