import { systemClock } from '../clock.ts'
import { lookAtDatabase, lookAtDisk, lookAtFolder, lookAtHub } from '../doctor/look-at-data.ts'
import { lookAtClock, lookAtListening, lookAtPorts } from '../doctor/look-at-machine.ts'
import { defaultDataFolder } from '../environment.ts'
import { MQTT_PORT } from '../session.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'
import { DEFAULT_PORT } from './start.ts'

export const doctor: Command = {
  name: 'doctor',
  summary: 'Check database, disk, ports, broker, clock and permissions, and say what to do',
  usage: `tussock doctor [options]

  --data FOLDER  where readings are kept
  --port N       port of the page (default ${DEFAULT_PORT})
  --mqtt-port N  port of the broker (default ${MQTT_PORT})

Changes nothing. Ends with 1 when something is wrong.`,

  async run(args) {
    const { values } = readOptions(args, {
      data: { type: 'string' },
      port: { type: 'string', default: String(DEFAULT_PORT) },
      'mqtt-port': { type: 'string', default: String(MQTT_PORT) },
    })
    const folder = values.data ?? defaultDataFolder()
    const hub = lookAtHub(folder)
    const isRunning = hub.said.startsWith('A hub')
    const findings = [
      lookAtFolder(folder),
      lookAtDatabase(folder),
      lookAtDisk(folder),
      hub,
      await lookAtListening('page', wholeNumber(values.port, '--port', 1, 65_535), isRunning),
      await lookAtListening('broker', wholeNumber(values['mqtt-port'], '--mqtt-port', 1, 65_535), isRunning),
      await lookAtPorts(),
      lookAtClock(systemClock.nowMs()),
    ]
    for (const { what, state, said, remedy } of findings) {
      printLine(`${state.padEnd(7)}  ${what.padEnd(8)}  ${said}`)
      if (remedy !== '') printLine(`${' '.repeat(19)}${remedy}`)
    }
    return findings.some(({ state }) => state === 'wrong') ? 1 : 0
  },
}
