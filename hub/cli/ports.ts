import { listPorts } from '../sources/list-ports.ts'
import { type Command, printLine } from './command.ts'

export const ports: Command = {
  name: 'ports',
  summary: 'List the serial ports of this computer',
  usage: 'tussock ports',

  async run() {
    const { ports, trouble } = await listPorts()
    for (const { path, maker, serialNumber, usbId } of ports)
      printLine([path, maker, usbId, serialNumber].filter((part) => part !== undefined).join('\t'))
    if (ports.length === 0)
      printLine('No serial ports found. Plug a board in, or name a port with --serial PATH.')
    if (trouble !== null) process.stderr.write(`${trouble}\n`)
    return undefined
  },
}
