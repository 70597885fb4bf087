import type { IncomingMessage, ServerResponse } from 'node:http'
import type { Context } from 'hono'
import { getCookie } from 'hono/cookie'
import { type Door, type Role, SESSION_COOKIE } from '../access/door.ts'

type AnyContext = Context<{ Bindings: { incoming: IncomingMessage; outgoing: ServerResponse } }>

/** The address a request comes from, by its connection: no header is believed. */
export function addressOf(c: AnyContext): string {
  // without a connection it was made within this process, as tests do
  return (c.env as Partial<typeof c.env> | undefined)?.incoming
    ? (c.env.incoming.socket.remoteAddress ?? 'unknown')
    : '127.0.0.1'
}

export function roleOf(c: AnyContext, door: Door): Role {
  return door.roleOf(addressOf(c), getCookie(c, SESSION_COOKIE))
}
