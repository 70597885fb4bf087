import type { Server } from 'node:http'

/** A client that takes longer than this to say what it wants, or to take what it is sent, is let go. */
const HEADERS_MS = 15_000
const REQUEST_MS = 60_000
const IDLE_MS = 120_000
/** thirty phones with a few tabs each, and room beside them */
const CONNECTIONS_AT_MOST = 500

/** Slow and silent clients, and too many of them, must not keep the hub from the others. */
export function limitConnections(server: Server): void {
  server.headersTimeout = HEADERS_MS
  server.requestTimeout = REQUEST_MS
  server.timeout = IDLE_MS
  server.maxConnections = CONNECTIONS_AT_MOST
}
