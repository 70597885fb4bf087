import { createHash, randomBytes } from 'node:crypto'
import { HubError } from '../errors.ts'
import { isLoopbackAddress } from '../http/addresses.ts'
import type { AccessSecrets } from './access-file.ts'
import { Attempts } from './attempts.ts'
import { isSecret } from './passphrase.ts'

/** `teacher` may do everything; `class` may look, capture spot readings and download; `stranger` may enter the code. */
export type Role = 'teacher' | 'class' | 'stranger'

export const SESSION_COOKIE = 'tussock_session'
/** A school day. */
export const SESSION_SECONDS = 12 * 3600
const SESSIONS_AT_MOST = 1000

interface Opened {
  role: 'teacher' | 'class'
  untilMs: number
}

/** Who comes in as what. Who sits at the hub's own keyboard is the teacher. */
export class Door {
  readonly #secrets: AccessSecrets
  /** each secret has its own: who knows the class code must not win tries at the passphrase by entering it */
  readonly #attempts: Record<Opened['role'], Attempts>
  readonly #nowMs: () => number
  /** by the hash of the cookie: what is in memory opens nothing */
  readonly #sessions = new Map<string, Opened>()

  constructor(secrets: AccessSecrets, nowMs: () => number = Date.now) {
    this.#secrets = secrets
    this.#nowMs = nowMs
    this.#attempts = { teacher: new Attempts(nowMs), class: new Attempts(nowMs) }
  }

  get needsClassCode(): boolean {
    return this.#secrets.classCode !== null
  }

  roleOf(address: string, cookie: string | undefined): Role {
    if (isLoopbackAddress(address)) return 'teacher'
    const session = cookie === undefined ? undefined : this.#sessions.get(hashOf(cookie))
    if (session && session.untilMs > this.#nowMs()) return session.role
    return this.needsClassCode ? 'stranger' : 'class'
  }

  /**
   * Tries a passphrase, or a class code.
   * @returns the cookie that opens from now on
   * @throws HubError `E_WAIT` after too many wrong tries, `E_WRONG_SECRET`
   */
  async enter(address: string, as: 'teacher' | 'class', secret: string): Promise<string> {
    const attempts = this.#attempts[as]
    const waitMs = attempts.waitMs(address)
    if (waitMs > 0)
      throw new HubError(
        'E_WAIT',
        `Too many wrong tries; the next is possible in ${Math.ceil(waitMs / 60_000)} min.`,
      )
    attempts.count(address)
    const kept = as === 'teacher' ? this.#secrets.teacher : this.#secrets.classCode
    if (kept === null || !(await isSecret(secret, kept)))
      throw new HubError(
        'E_WRONG_SECRET',
        as === 'teacher' ? 'That is not the teacher’s passphrase.' : 'That is not the class code.',
      )
    attempts.forget(address)
    const cookie = randomBytes(32).toString('base64url')
    this.#clearOld()
    this.#sessions.set(hashOf(cookie), { role: as, untilMs: this.#nowMs() + SESSION_SECONDS * 1000 })
    return cookie
  }

  leave(cookie: string | undefined): void {
    if (cookie !== undefined) this.#sessions.delete(hashOf(cookie))
  }

  #clearOld(): void {
    const now = this.#nowMs()
    for (const [hash, { untilMs }] of this.#sessions) if (untilMs <= now) this.#sessions.delete(hash)
    for (const hash of this.#sessions.keys()) {
      if (this.#sessions.size < SESSIONS_AT_MOST) break
      this.#sessions.delete(hash)
    }
  }
}

function hashOf(cookie: string): string {
  return createHash('sha256').update(cookie).digest('base64')
}
