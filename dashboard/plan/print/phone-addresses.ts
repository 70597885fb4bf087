import { useEffect, useState } from 'preact/hooks'
import type { HubAddress } from '../../../hub/contract/status.ts'
import { planClient } from '../plan-client.ts'

export interface PhoneAddresses {
  /** addresses that phones can open, the best first; when there are none, the one this page came from */
  addresses: string[]
  isReachableByPhones: boolean
}

/**
 * Which address a card should carry.
 * @param origin  of this page, such as `http://127.0.0.1:8417`
 * @param known  the hub’s own list; null when it has none to give
 */
export function phoneAddresses(origin: string, known: readonly HubAddress[] | null): PhoneAddresses {
  const rank = { name: 0, network: 1, loopback: 2 }
  const good = (known ?? [])
    .filter(({ isReachableByPhones }) => isReachableByPhones)
    .sort((one, other) => rank[one.kind] - rank[other.kind])
    .map(({ url }) => url.replace(/\/$/, ''))
  if (good.length > 0) return { addresses: good, isReachableByPhones: true }
  const host = new URL(origin).hostname
  const isHere = host === 'localhost' || host === '[::1]' || /^127\./.test(host)
  return { addresses: [origin], isReachableByPhones: !isHere }
}

/** null until the hub has answered. */
export function usePhoneAddresses(): PhoneAddresses | null {
  const [found, setFound] = useState<PhoneAddresses | null>(null)
  useEffect(() => {
    planClient.addresses().then(
      ({ addresses }) => setFound(phoneAddresses(location.origin, addresses)),
      () => setFound(phoneAddresses(location.origin, null)),
    )
  }, [])
  return found
}
