import { existsSync, readdirSync, readFileSync, readlinkSync } from 'node:fs'

/**
 * Whether some process has this terminal open, apart from those that keep it alive.
 * A cable nobody listens to loses its bytes; a pseudo-terminal would hoard them and hand them out late,
 * with relative times that are no longer true. So a board looks before it speaks, as one does at the DTR line.
 * @returns true as well where the machine has no /proc to look in
 */
export function hasListener(path: string, keeperPids: readonly number[]): boolean {
  if (!existsSync('/proc/self/fd')) return true
  // nearly always it is the program that started the rehearsal: look there first
  if (holds(process.ppid, path, keeperPids)) return true
  for (const name of readdirSync('/proc')) {
    const pid = Number(name)
    if (Number.isInteger(pid) && pid !== process.ppid && holds(pid, path, keeperPids)) return true
  }
  return false
}

function holds(pid: number, path: string, keeperPids: readonly number[]): boolean {
  if (keeperPids.includes(pid)) return false
  let names: string[]
  try {
    names = readdirSync(`/proc/${pid}/fd`)
  } catch {
    return false // gone meanwhile, or another user's
  }
  if (!names.some((name) => linkTarget(`/proc/${pid}/fd/${name}`) === path)) return false
  const session = sessionOf(pid)
  return session !== null && !keeperPids.includes(session)
}

function linkTarget(link: string): string | null {
  try {
    return readlinkSync(link)
  } catch {
    return null
  }
}

/** Sixth field of /proc/PID/stat; the second, the program's name in brackets, may itself hold spaces. */
function sessionOf(pid: number): number | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'latin1')
    const afterName = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    return Number(afterName[3])
  } catch {
    return null
  }
}
