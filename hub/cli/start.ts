import { readAccess } from '../access/access-file.ts'
import { readCertificate } from '../access/certificate.ts'
import type { BackupSetting } from '../backup/backup-schedule.ts'
import type { SerialPortSetting } from '../contract/survey.ts'
import { defaultDataFolder, readVersion } from '../environment.ts'
import { HubError } from '../errors.ts'
import { isLoopback } from '../http/addresses.ts'
import { startHub } from '../main.ts'
import { benchFaultNames, fieldFaultNames } from '../rehearsal/fault-names.ts'
import { clearAfterStart, keepHeapsSmall } from '../small-heaps.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'

export const DEFAULT_PORT = 4780

export const start: Command = {
  name: 'start',
  summary: 'Run the hub: open the page it prints',
  usage: `tussock start [options]

  --rehearsal          rehearse with a simulated class, in a data folder of its own
    --seed N           the same seed gives the same rehearsal (default 7)
    --speed N          run the clock N times as fast (default 1)
    --faults A,B       unplug, repeat, garbage, dead-clock, dry-bulb, saturated, two-names, or all of these;
                       at the bench: swapped, stale-10, cracked-bulb
    --bench            begin on the bench: nothing calibrated or placed yet
    --for SECONDS      end after this many seconds of the rehearsal's clock
  --data FOLDER        where readings are kept
  --port N             port of the page (default ${DEFAULT_PORT})
  --host ADDRESS       address of the page (default 127.0.0.1: this computer only)
                       for phones: 0.0.0.0, after “tussock passphrase”
  --https-cert FILE    certificate for HTTPS (and MQTT over TLS), as PEM; with --https-key FILE
  --serial PATH[@BAUD] open this serial port (may be given several times; 115200 baud)
  --mqtt-port N        port of the embedded broker (default 1883)
  --mqtt-host ADDRESS  address of the embedded broker (default 127.0.0.1)
  --open-boards        let boards without a key in from the network (keys are made on the page Boards)
  --mqtts-port N       port of MQTT over TLS, with a certificate (default 8883)
  --broker URL         use an existing broker, such as mqtt://10.0.0.5:1883
  --backup-to FOLDER   copy the readings there on a schedule: another disk, a USB stick
  --backup-every MIN   how often (default 30)
  --backup-keep N      how many to keep (default 14)
  --record FILE        write everything that arrives to a capture file`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      rehearsal: { type: 'boolean', default: false },
      seed: { type: 'string' },
      speed: { type: 'string' },
      faults: { type: 'string' },
      bench: { type: 'boolean', default: false },
      for: { type: 'string' },
      data: { type: 'string' },
      port: { type: 'string' },
      host: { type: 'string', default: '127.0.0.1' },
      serial: { type: 'string', multiple: true, default: [] },
      'mqtt-port': { type: 'string' },
      'mqtt-host': { type: 'string', default: '127.0.0.1' },
      broker: { type: 'string' },
      record: { type: 'string' },
      'https-cert': { type: 'string' },
      'https-key': { type: 'string' },
      'mqtts-port': { type: 'string', default: '8883' },
      'open-boards': { type: 'boolean', default: false },
      'backup-to': { type: 'string' },
      'backup-every': { type: 'string' },
      'backup-keep': { type: 'string' },
    })
    if (positionals.length > 0)
      throw new HubError('E_COMMAND', `"${positionals[0]}" is not an option of start.`)
    const { rehearsal: isRehearsal, seed, speed, faults, for: seconds } = values
    const bench = values.bench || undefined
    for (const [name, value] of Object.entries({ seed, speed, faults, bench, for: seconds }))
      if (value !== undefined && !isRehearsal)
        throw new HubError('E_COMMAND', `--${name} is for rehearsals: add --rehearsal.`)
    const rehearsal = isRehearsal
      ? {
          seed: wholeNumber(seed ?? '7', '--seed', 0, 2 ** 31),
          speed: wholeNumber(speed ?? '1', '--speed', 1, 600),
          bench: values.bench,
          faults: faultsNamed(faults ?? ''),
          forSeconds: seconds === undefined ? null : wholeNumber(seconds, '--for', 1, 864_000),
        }
      : null
    const dataFolder = values.data ?? defaultDataFolder()
    const secrets = readAccess(dataFolder)
    if (!isLoopback(values.host) && secrets.teacher === null)
      throw new HubError(
        'E_PASSPHRASE',
        `Opening the hub to a network (${values.host}) needs a teacher’s passphrase.`,
      )
    keepHeapsSmall()
    const hub = await startHub(
      {
        version: readVersion(),
        dataFolder,
        host: values.host,
        port: values.port === undefined ? DEFAULT_PORT : wholeNumber(values.port, '--port', 0, 65_535),
        mqttHost: values['mqtt-host'],
        mqttPort:
          values['mqtt-port'] === undefined
            ? null
            : wholeNumber(values['mqtt-port'], '--mqtt-port', 0, 65_535),
        brokerUrl: values.broker === undefined ? null : brokerUrl(values.broker),
        serialPorts: values.serial.map(serialPort),
        recordTo: values.record ?? null,
        rehearsal,
        secrets,
        tls: readCertificate(values['https-cert'], values['https-key']),
        mqttsPort: wholeNumber(values['mqtts-port'], '--mqtts-port', 0, 65_535),
        mayBoardsBeAnonymous: isLoopback(values['mqtt-host']) || values['open-boards'],
        backup: backupSetting(values['backup-to'], values['backup-every'], values['backup-keep']),
      },
      printLine,
    )
    clearAfterStart()
    printLine(`Tussock ${readVersion()}${isRehearsal ? ', rehearsal with a simulated class' : ''}`)
    printLine(`  open   ${hub.address}`)
    printLine(`  boards ${hub.mqtt}`)
    printLine(`  data   ${hub.dataFolder}`)
    if (values['open-boards'] && !isLoopback(values['mqtt-host']))
      printLine('  Boards need no key: whoever is on this network can send readings under any name.')
    printLine('Stop with Ctrl+C.')
    const stopped = new Promise<void>((resolve) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve())
    })
    await Promise.race([stopped, hub.over])
    await hub.stop()
    return 0
  },
}

function backupSetting(
  to: string | undefined,
  every: string | undefined,
  keep: string | undefined,
): BackupSetting | null {
  if (to === undefined) {
    if (every !== undefined || keep !== undefined)
      throw new HubError('E_COMMAND', '--backup-every and --backup-keep need --backup-to FOLDER.')
    return null
  }
  return {
    to,
    everyMinutes: wholeNumber(every ?? '30', '--backup-every', 1, 10_080),
    keep: wholeNumber(keep ?? '14', '--backup-keep', 1, 10_000),
  }
}

function faultsNamed(text: string): string[] {
  const faults = text.split(',').filter((fault) => fault !== '')
  const known = ['all', ...fieldFaultNames, ...benchFaultNames]
  const unknown = faults.find((fault) => !known.includes(fault))
  if (unknown !== undefined)
    throw new HubError('E_COMMAND', `--faults does not know "${unknown}"; it knows ${known.join(', ')}.`)
  return faults
}

function serialPort(text: string): SerialPortSetting {
  const [, path, baud] = /^(.+?)(?:@(\d+))?$/.exec(text) ?? []
  if (path === undefined) throw new HubError('E_COMMAND', `"${text}" is not a serial port.`)
  return { path, baudRate: baud === undefined ? 115_200 : wholeNumber(baud, 'The baud rate', 300, 921_600) }
}

function brokerUrl(text: string): string {
  if (!/^mqtts?:\/\/[^/]+/.test(text) || !URL.canParse(text))
    throw new HubError('E_COMMAND', `--broker should be like mqtt://10.0.0.5:1883, it is "${text}".`)
  return text
}
