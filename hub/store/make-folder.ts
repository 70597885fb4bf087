import { existsSync, mkdirSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'

/**
 * Makes a folder, and those above it that are missing. Node's own `recursive` says ENOENT for a read-only disk, and
 * never ends where a parent answers ENOENT although it is there (`/proc`).
 */
export function makeFolder(folder: string): void {
  const path = resolve(folder)
  if (existsSync(path) && statSync(path).isDirectory()) return
  if (!existsSync(dirname(path))) makeFolder(dirname(path))
  mkdirSync(path)
}
