import { readdir, readlink } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { SerialPort } from 'serialport'
import { systemCode } from '../errors.ts'
import { troubleText } from './trouble.ts'

export interface PortFound {
  path: string
  /** what the board's USB side says of itself, where it says anything */
  maker?: string
  serialNumber?: string
  usbId?: string
}

export interface PortList {
  ports: PortFound[]
  /** what kept the list from being complete, and what to do */
  trouble: string | null
}

/**
 * Serial ports of this machine. On Linux the library asks `udevadm`; where that is missing (slim containers) the
 * device folder is read instead, and the list says so.
 */
export async function listPorts(
  devices = '/dev',
  ask: () => Promise<Awaited<ReturnType<typeof SerialPort.list>>> = () => SerialPort.list(),
): Promise<PortList> {
  try {
    const found = await ask()
    return {
      ports: found.map((port) => ({
        path: port.path,
        ...(port.manufacturer ? { maker: port.manufacturer } : {}),
        ...(port.serialNumber ? { serialNumber: port.serialNumber } : {}),
        ...(port.vendorId && port.productId ? { usbId: `${port.vendorId}:${port.productId}` } : {}),
      })),
      trouble: null,
    }
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error
    const trouble = troubleText(
      'E_PORT_LIST',
      'The program udevadm is missing, so ports are listed by name only.',
    )
    return { ports: await portsByName(devices), trouble }
  }
}

async function portsByName(devices: string): Promise<PortFound[]> {
  const names = await readdir(devices).catch(() => [])
  const byId = join(devices, 'serial/by-id')
  const identities = new Map<string, string>()
  for (const identity of await readdir(byId).catch(() => [])) {
    // a link may be gone by now, with its board
    const target = await readlink(join(byId, identity)).catch(() => null)
    if (target !== null) identities.set(basename(target), identity)
  }
  return names
    .filter((name) => /^tty(USB|ACM|AMA)\d+$/.test(name))
    .sort()
    .map((name) => {
      const identity = identities.get(name)
      return { path: join(devices, name), ...(identity ? { serialNumber: identity } : {}) }
    })
}
