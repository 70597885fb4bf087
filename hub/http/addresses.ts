import { networkInterfaces } from 'node:os'
import type { HubAddress } from '../contract/status.ts'

const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1'])
const EVERYWHERE = new Set(['0.0.0.0', '::', ''])

/** IPv4 addresses under which other machines can reach this one. */
export function networkAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(
      ({ family, internal, address }) => family === 'IPv4' && !internal && !address.startsWith('169.254.'),
    )
    .map(({ address }) => address)
}

/** Of a name or address to listen on. */
export function isLoopback(host: string): boolean {
  return LOOPBACK.has(host)
}

/** 127.0.0.0/8, ::1, and the first written as IPv6. */
export function isLoopbackAddress(address: string): boolean {
  return address === '::1' || /^(::ffff:)?127\.\d+\.\d+\.\d+$/.test(address)
}

/**
 * Where the page can be opened, the best for a phone first: an address of numbers works on every phone, a `.local` name
 * on most.
 * @param host  that the hub listens on
 */
export function addressesOf(
  host: string,
  port: number,
  localName: string | null,
  scheme: 'http' | 'https' = 'http',
  onNetwork: readonly string[] = networkAddresses(),
): HubAddress[] {
  const url = (name: string) => `${scheme}://${name.includes(':') ? `[${name}]` : name}:${port}`
  if (isLoopback(host)) return [{ url: url(host), kind: 'loopback', isReachableByPhones: false }]
  const network = (EVERYWHERE.has(host) ? onNetwork : [host]).map((address) => ({
    url: url(address),
    kind: 'network' as const,
    isReachableByPhones: true,
  }))
  const named =
    localName === null ? [] : [{ url: url(localName), kind: 'name' as const, isReachableByPhones: true }]
  return [...network, ...named, { url: url('127.0.0.1'), kind: 'loopback', isReachableByPhones: false }]
}
