import { SerialPort } from 'serialport'
import type { Clock } from '../clock.ts'
import type { SerialPortSetting } from '../contract/survey.ts'
import { HubError, messageOf } from '../errors.ts'
import { mendHangup } from '../sources/serial-hangup.ts'
import { readLines } from '../sources/serial-lines.ts'
import { type BoardLink, EventQueue } from './board-link.ts'

/** Opens a port as the hub does. @throws HubError when another program has it, or it is not there */
export async function openSerialLink(setting: SerialPortSetting, clock: Clock): Promise<BoardLink> {
  mendHangup()
  const queue = new EventQueue()
  const port = new SerialPort({ ...setting, autoOpen: false })
  const from = { path: setting.path, board: null, wholeAfterMs: 100 }
  readLines(
    port,
    from,
    clock,
    ({ bytes, arrivedMs }) =>
      queue.add({ kind: 'heard', atMs: arrivedMs, text: Buffer.from(bytes).toString('utf8') }),
    () => {},
  )
  port.on('error', (error) => queue.fail(gone(setting.path, error)))
  port.on('close', (error: Error | null) => queue.fail(gone(setting.path, error)))
  await new Promise<void>((resolve, reject) => {
    port.open((error) => (error ? reject(cannotOpen(setting.path, error)) : resolve()))
  })
  return {
    way: 'serial',
    board: null,
    say(words) {
      if (port.isOpen) port.write(`${words}\n`, () => {})
    },
    next: () => queue.next(),
    close: () => new Promise((resolve) => (port.isOpen ? port.close(() => resolve()) : resolve())),
  }
}

function gone(path: string, error: Error | null): HubError {
  return new HubError(
    'E_PORT_GONE',
    `${path} stopped answering (${messageOf(error ?? 'the device hung up')}).`,
  )
}

function cannotOpen(path: string, error: Error): HubError {
  const text = messageOf(error)
  if (/lock|busy/i.test(text))
    return new HubError('E_PORT_BUSY', `${path} is in use by another program, perhaps a running hub.`)
  if (/permission|access denied/i.test(text))
    return new HubError('E_PORT_PERMISSION', `This user may not open ${path}.`)
  return new HubError('E_PORT_MISSING', `${path} cannot be opened (${text}).`)
}
