import { accessSync, constants } from 'node:fs'
import { createServer } from 'node:net'
import { messageOf, systemCode } from '../errors.ts'
import { listPorts } from '../sources/list-ports.ts'
import { type Finding, ok, warning, wrong } from './finding.ts'

/** The first day on which this could have been written: a clock before it has not been set. */
const NOT_BEFORE_MS = Date.UTC(2026, 0, 1)

/** A clock in the past puts every reading of a board without a clock into the past. */
export function lookAtClock(nowMs: number): Finding {
  const text = new Date(nowMs).toISOString().slice(0, 19).replace('T', ' ')
  if (nowMs < NOT_BEFORE_MS)
    return wrong(
      'clock',
      `This computer’s clock says ${text} UTC, which is long ago.`,
      'Set the clock (date --set, or connect to the internet once) before you start.',
    )
  return ok('clock', `${text} UTC. Compare it with a phone.`)
}

export async function lookAtPorts(): Promise<Finding> {
  const { ports, trouble } = await listPorts()
  if (trouble !== null) return warning('ports', trouble, 'Name the port by its path: --serial /dev/ttyUSB0.')
  if (ports.length === 0) return ok('ports', 'No board is plugged in.')
  const closed = ports.filter(({ path }) => !mayOpen(path)).map(({ path }) => path)
  if (closed.length > 0)
    return wrong(
      'ports',
      `${closed.join(', ')} may not be opened by you.`,
      'Add your user to the group dialout (sudo usermod -aG dialout $USER) and log in again.',
    )
  return ok('ports', ports.map(({ path, maker }) => (maker ? `${path} (${maker})` : path)).join(', '))
}

function mayOpen(path: string): boolean {
  try {
    accessSync(path, constants.R_OK | constants.W_OK)
    return true
  } catch {
    return false
  }
}

/** Whether a TCP port can be listened on; one in use by the hub itself is no fault. */
export function lookAtListening(what: string, port: number, isHubRunning: boolean): Promise<Finding> {
  return new Promise((resolve) => {
    const server = createServer()
    server.once('error', (error) => {
      if (systemCode(error) === 'EADDRINUSE' && isHubRunning)
        resolve(ok(what, `Port ${port} is in use, as it should be.`))
      else if (systemCode(error) === 'EADDRINUSE')
        resolve(
          wrong(
            what,
            `Another program listens on port ${port}.`,
            `Stop it, or choose another port (tussock start --help).`,
          ),
        )
      else
        resolve(wrong(what, `Port ${port} cannot be used: ${messageOf(error)}.`, 'Choose a port above 1023.'))
    })
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(ok(what, `Port ${port} is free.`))))
  })
}
