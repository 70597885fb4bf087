import type { Server, Socket } from 'node:net'
import { isLoopbackAddress } from '../http/addresses.ts'

/**
 * One device must not take all the connections a server has. Programs on the hub's own machine are not counted.
 * @param most  connections that one address may have open at a time
 */
export function limitPerAddress(server: Server, most: number): void {
  const open = new Map<string, number>()
  server.on('connection', (socket: Socket) => {
    const address = socket.remoteAddress
    if (address === undefined || isLoopbackAddress(address)) return
    const count = (open.get(address) ?? 0) + 1
    if (count > most) {
      socket.destroy()
      return
    }
    open.set(address, count)
    socket.once('close', () => {
      const left = open.get(address)! - 1
      if (left > 0) open.set(address, left)
      else open.delete(address)
    })
  })
}
