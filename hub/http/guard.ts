import { bodyLimit } from 'hono/body-limit'
import { isOwnHost } from '../access/host-names.ts'
import { isEnough, roleNeeded } from '../access/may.ts'
import { HubError } from '../errors.ts'
import { isLoopbackAddress } from './addresses.ts'
import type { HubApp, PageSide } from './page-side.ts'
import { Turns } from './turns.ts'
import { addressOf, roleOf } from './who-asks.ts'

/** Only these reach a page: everything it needs comes from the hub itself. */
export const SECURITY_HEADERS = {
  'content-security-policy':
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; base-uri 'none'; frame-ancestors 'self'; form-action 'self'",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
}

const BODY_BYTES_AT_MOST = 10_500_000
/** Changes that one address may make: a phone that comes back sends all it has captured at once. */
const CHANGES_AT_MOST = 200
const CHANGES_SPAN_MS = 10_000

/** What stands before every route: is it meant for this hub, from a page of its own, small enough, and allowed? */
export function guard(app: HubApp, side: PageSide): void {
  const turns = new Turns()
  const changes = new Map<string, { count: number; sinceMs: number }>()
  app.use(async (c, next) => {
    for (const [name, value] of Object.entries(SECURITY_HEADERS)) c.header(name, value)
    const host = c.req.header('host')
    if (!isOwnHost(host ?? new URL(c.req.url).host, side.access.hostNames()))
      throw new HubError('E_HOST', `This hub is not called ${host}.`)
    const isChange = c.req.method !== 'GET' && c.req.method !== 'HEAD'
    if (isChange) {
      const origin = c.req.header('origin')
      if (origin !== undefined && hostOf(origin) !== host)
        throw new HubError('E_ELSEWHERE', `A page from ${origin} tried to change something here.`)
      countChange(changes, addressOf(c))
    }
    const needed = roleNeeded(c.req.method, c.req.path)
    const role = roleOf(c, side.door)
    if (!isEnough(role, needed))
      throw needed === 'teacher'
        ? new HubError('E_TEACHER', 'Only the teacher may do that.')
        : new HubError('E_CODE', 'This hub asks for the class code.')
    // files of the page cost nothing and wait for nobody
    const done = c.req.path.startsWith('/api/') ? await turns.wait(addressOf(c)) : null
    try {
      // also a body that does not say how long it is; and who may not send one is not listened to
      return await (isChange ? limitBody(c, next) : next())
    } finally {
      done?.()
    }
  })
}

const limitBody = bodyLimit({
  maxSize: BODY_BYTES_AT_MOST,
  onError: () => {
    throw new HubError('E_BODY', `A body of more than ${BODY_BYTES_AT_MOST / 1e6} MB.`)
  },
})

function countChange(changes: Map<string, { count: number; sinceMs: number }>, address: string): void {
  if (isLoopbackAddress(address)) return
  const now = Date.now()
  for (const [other, { sinceMs }] of changes) if (now - sinceMs > CHANGES_SPAN_MS) changes.delete(other)
  const own = changes.get(address) ?? { count: 0, sinceMs: now }
  own.count++
  changes.set(address, own)
  if (own.count > CHANGES_AT_MOST) throw new HubError('E_WAIT', 'Too many changes at once from this device.')
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host
  } catch {
    return null
  }
}
