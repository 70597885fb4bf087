import { hostname } from 'node:os'

/**
 * Whether a request was meant for this hub, by its Host header. A page elsewhere whose name was pointed at this machine's
 * address (DNS rebinding) comes under its own name, and is refused.
 * @param host  of the request, with or without port
 * @param names  under which the hub is reached besides its loopback names: addresses, a `.local` name
 */
export function isOwnHost(host: string | undefined, names: readonly string[]): boolean {
  if (host === undefined) return false
  const name = host
    .toLowerCase()
    .replace(/:\d+$/, '')
    .replace(/^\[(.*)\]$/, '$1')
    .replace(/\.$/, '')
  const own = hostname().toLowerCase()
  return [
    'localhost',
    '127.0.0.1',
    '::1',
    own,
    `${own}.local`,
    ...names.map((each) => each.toLowerCase()),
  ].includes(name)
}
