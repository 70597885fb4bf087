import { signal } from '@preact/signals'
import type { You } from '../../hub/contract/access-api.ts'
import { call } from '../client.ts'

/** As what this page is let in; null until the hub has said. */
export const you = signal<You | null>(null)

export async function fetchYou(): Promise<void> {
  you.value = await call<You>('GET', '/api/you')
}

/** Enters with a secret, and begins the notebook anew as what it opened. */
export async function enter(as: 'teacher' | 'class', secret: string): Promise<void> {
  await call('POST', '/api/enter', { as, secret })
  location.assign('/')
}

export async function leave(): Promise<void> {
  await call('POST', '/api/leave', {})
  location.assign('/')
}
