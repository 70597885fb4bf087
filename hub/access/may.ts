import type { Role } from './door.ts'

/**
 * What a class may do besides looking: keep spot readings, put right its own slips with them, and say that a trap was
 * looked at: an animal must not wait for a passphrase.
 */
const CLASS_MAY = [
  /^\/api\/surveys\/[^/]+\/spots$/,
  /^\/api\/surveys\/[^/]+\/spots\/[^/]+\/amend$/,
  /^\/api\/surveys\/[^/]+\/traps\/[^/]+\/check$/,
]
/** Asked of the hub by a page that is drawing: nothing is changed by it. */
const CHANGES_NOTHING = [
  /^\/api\/plan\/(draw|enough)$/,
  /^\/api\/surveys\/[^/]+\/plan\/preview$/,
  /^\/api\/surveys\/[^/]+\/calibrations\/preview$/,
]
/** Open to whoever reaches the hub. */
const ANYONE = [/^\/api\/enter$/, /^\/api\/leave$/, /^\/api\/you$/]

/** The role that a request needs. Whatever is not named here and changes something is the teacher's. */
export function roleNeeded(method: string, path: string): Role {
  const isIn = (list: readonly RegExp[]) => list.some((pattern) => pattern.test(path))
  // the page itself is the same for all, and shows nothing without the API
  if (isIn(ANYONE) || !path.startsWith('/api/')) return 'stranger'
  const isLooking = method === 'GET' || method === 'HEAD' || (method === 'POST' && isIn(CHANGES_NOTHING))
  return isLooking || (method === 'POST' && isIn(CLASS_MAY)) ? 'class' : 'teacher'
}

const rank: Record<Role, number> = { stranger: 0, class: 1, teacher: 2 }

export function isEnough(role: Role, needed: Role): boolean {
  return rank[role] >= rank[needed]
}
