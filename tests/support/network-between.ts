import { once } from 'node:events'
import { type AddressInfo, connect, createServer, type Socket } from 'node:net'

/** A network between a phone and a hub, which a test takes away and gives back. */
export interface NetworkBetween {
  /** where the phone finds the hub, as `http://127.0.0.1:PORT` */
  address: string
  /** No byte gets through any more: open connections break, new ones are closed at once. */
  lose(): void
  giveBack(): void
  close(): Promise<void>
}

/**
 * Passes bytes on to a hub, as an access point does. The browser's own "offline" is a wish to each of its processes,
 * and one that has just started may not have heard of it.
 * @param hubAddress  as `http://127.0.0.1:PORT`
 */
export async function networkTo(hubAddress: string): Promise<NetworkBetween> {
  const { hostname, port } = new URL(hubAddress)
  const open = new Set<Socket>()
  let isLost = false
  const breakAll = () => {
    for (const socket of open) socket.destroy()
  }
  const server = createServer((near) => {
    if (isLost) {
      near.destroy()
      return
    }
    const far = connect(Number(port), hostname)
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      open.add(from)
      from.on('error', () => to.destroy())
      from.once('close', () => {
        open.delete(from)
        to.destroy()
      })
      from.pipe(to)
    }
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    lose() {
      isLost = true
      breakAll()
    },
    giveBack() {
      isLost = false
    },
    async close() {
      breakAll()
      server.close()
      await once(server, 'close')
    },
  }
}
