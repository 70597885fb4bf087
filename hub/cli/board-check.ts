import type { BoardLink } from '../board-check/board-link.ts'
import { converse } from '../board-check/converse.ts'
import { judge } from '../board-check/judge.ts'
import { openMqttLink } from '../board-check/mqtt-link.ts'
import type { Point } from '../board-check/point.ts'
import { openSerialLink } from '../board-check/serial-link.ts'
import { systemClock } from '../clock.ts'
import { HubError } from '../errors.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'

export const boardCheck: Command = {
  name: 'board-check',
  summary: 'Talk to a board and say, point by point, what it does of the protocol',
  usage: `tussock board-check PORT[@BAUD]            a board on a serial port that no hub has open (115200 baud)
tussock board-check BOARD --broker URL     a board on MQTT, through the broker it is connected to

  --patience SECONDS   how long each thing is waited for (default 30; more for a board that samples seldom)

Ends with 0 when nothing is wrong. What a board should do: firmware-notes/PROTOCOL.md`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      broker: { type: 'string' },
      patience: { type: 'string', default: '30' },
    })
    const [target] = positionals
    if (target === undefined || positionals.length > 1)
      throw new HubError('E_COMMAND', 'Name one port or one board.')
    const patienceMs = wholeNumber(values.patience, '--patience', 1, 3600) * 1000
    const link = await openLink(target, values.broker)
    let points: Point[]
    try {
      points = judge(await converse(link, systemClock, patienceMs))
    } finally {
      await link.close()
    }
    const width = Math.max(...points.map(({ name }) => name.length))
    for (const { verdict, name, saw } of points)
      printLine(`${verdict.padEnd(10)}  ${name.padEnd(width)}  ${saw}`)
    const count = (wanted: Point['verdict']) => points.filter(({ verdict }) => verdict === wanted).length
    printLine(`${count('right')} right, ${count('wrong')} wrong, ${count('not tested')} not tested`)
    return count('wrong') === 0 ? 0 : 1
  },
}

function openLink(target: string, broker: string | undefined): Promise<BoardLink> {
  if (broker !== undefined) {
    if (!/^mqtts?:\/\/[^/]+/.test(broker) || !URL.canParse(broker))
      throw new HubError('E_COMMAND', `--broker should be like mqtt://10.0.0.5:1883, it is "${broker}".`)
    return openMqttLink(broker, target, systemClock)
  }
  const [, path = target, baud] = /^(.+?)(?:@(\d+))?$/.exec(target) ?? []
  if (!/[\\/]|^COM\d+$/i.test(path))
    throw new HubError('E_COMMAND', `"${target}" is no port; for a board on MQTT add --broker URL.`)
  const baudRate = baud === undefined ? 115_200 : wholeNumber(baud, 'The baud rate', 300, 921_600)
  return openSerialLink({ path, baudRate }, systemClock)
}
