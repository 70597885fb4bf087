import type { Server } from 'node:http'
import { limitPerAddress } from '../access/connections-per-address.ts'

/** A client that takes longer than this to say what it wants, or to take what it is sent, is let go. */
const HEADERS_MS = 15_000
const REQUEST_MS = 60_000
const IDLE_MS = 120_000
/** thirty phones with a few tabs each, and room beside them */
const CONNECTIONS_AT_MOST = 500
/** …also where a router gives them all one address */
const CONNECTIONS_OF_ONE_ADDRESS = 200
/** TLS has to be agreed on within this time. */
export const HANDSHAKE_MS = 15_000
/** Slow clients are looked for this often; Node's own half minute would keep them three times as long. */
export const LOOK_FOR_SLOW_MS = 5_000

const LIMITS = { headersMs: HEADERS_MS, requestMs: REQUEST_MS, idleMs: IDLE_MS }

/**
 * Slow and silent clients, and too many of them, must not keep the hub from the others.
 * @param server  made with `connectionsCheckingInterval: LOOK_FOR_SLOW_MS`
 */
export function limitConnections(server: Server, limits = LIMITS): void {
  server.headersTimeout = limits.headersMs
  server.requestTimeout = limits.requestMs
  server.timeout = limits.idleMs
  server.maxConnections = CONNECTIONS_AT_MOST
  limitPerAddress(server, CONNECTIONS_OF_ONE_ADDRESS)
}
