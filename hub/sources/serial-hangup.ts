import { read } from 'node:fs'
import { promisify } from 'node:util'
import { BindingsError, LinuxPortBinding } from '@serialport/bindings-cpp'

const readBytes = promisify(read)
const WAIT_CODES = new Set(['EAGAIN', 'EWOULDBLOCK', 'EINTR'])

/** Parts of the binding that its types keep to themselves. */
interface Inside {
  isOpen: boolean
  fd: number | null
  poller: { once(event: 'readable', then: (error: Error | null) => void): void }
}

let isMended = false

/**
 * Mends a fault of \@serialport/bindings-cpp 13.0.0 on Linux: when a device hangs up while a read is under way, read()
 * gives 0 bytes for ever, and the binding reads again at once each time: a whole core busy, and no `close` event.
 * The port is opened with VMIN 1, so 0 bytes can only mean that the device has gone, and that is what is said here.
 */
export function mendHangup(): void {
  if (isMended || process.platform !== 'linux') return
  isMended = true
  LinuxPortBinding.prototype.read = async function (
    this: LinuxPortBinding,
    buffer: Buffer,
    offset: number,
    length: number,
  ) {
    const port = this as unknown as Inside
    for (;;) {
      if (!port.isOpen || port.fd === null) throw new BindingsError('Port is not open', { canceled: true })
      try {
        const { bytesRead } = await readBytes(port.fd, buffer, offset, length, null)
        if (bytesRead > 0) return { bytesRead, buffer }
        throw Object.assign(new Error('the device hung up'), { code: 'EIO' })
      } catch (error) {
        if (!WAIT_CODES.has(String((error as NodeJS.ErrnoException).code))) throw asUnplug(error)
        if (!port.isOpen) throw new BindingsError('Port is not open', { canceled: true })
        await new Promise<void>((resolve, reject) => {
          port.poller.once('readable', (failure) => (failure ? reject(failure) : resolve()))
        })
      }
    }
  } as LinuxPortBinding['read']
}

/** The codes by which the kernel says that a device has gone. */
function asUnplug(error: unknown): unknown {
  const code = String((error as NodeJS.ErrnoException).code)
  return ['EIO', 'EBADF', 'ENXIO', 'ENODEV', 'UNKNOWN'].includes(code)
    ? Object.assign(error as object, { disconnect: true })
    : error
}
