import { readFileSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'

/** The data folder when none is named: in the user's own data directory. */
export function defaultDataFolder(): string {
  const { TUSSOCK_DATA: named, XDG_DATA_HOME: dataHome } = process.env
  return named || join(dataHome || join(homedir(), '.local', 'share'), 'tussock')
}

export function readVersion(): string {
  const file = readFileSync(new URL('../../package.json', import.meta.url), 'utf8')
  return (JSON.parse(file) as { version: string }).version
}
