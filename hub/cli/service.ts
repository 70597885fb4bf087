import { resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { type Command, printLine, readOptions } from './command.ts'

export const service: Command = {
  name: 'service',
  summary: 'Print a systemd unit, so that the hub starts with the computer',
  usage: `tussock service [--user NAME] [--data FOLDER] [-- OPTIONS OF START]

  --user NAME    who the hub runs as (default: you)
  --data FOLDER  where readings are kept

On a computer with systemd (Debian, Raspberry Pi OS …), once:

  npx tussock service -- --serial /dev/ttyUSB0 | sudo tee /etc/systemd/system/tussock.service
  sudo systemctl enable --now tussock

Then: systemctl status tussock, and “tussock log” for what it did.
To take it away: sudo systemctl disable --now tussock, and remove the file.`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      user: { type: 'string', default: process.env['USER'] ?? 'root' },
      data: { type: 'string' },
    })
    if (!/^[a-z_][a-z0-9_-]*$/i.test(values.user))
      throw new HubError('E_COMMAND', `"${values.user}" is not the name of a user.`)
    const afterDashes = args.includes('--') ? args.slice(args.indexOf('--') + 1) : []
    if (positionals.length > afterDashes.length)
      throw new HubError(
        'E_COMMAND',
        `Write the options of start after “--”: tussock service -- ${positionals[0]}`,
      )
    if (afterDashes.some((option) => option.startsWith('--data')))
      throw new HubError('E_COMMAND', 'Write --data before the “--”.')
    printLine(unit(values.user, resolve(values.data ?? defaultDataFolder()), afterDashes))
    return 0
  },
}

/** A unit file as systemd.service(5), systemd.exec(5) and systemd.kill(5) describe it. */
function unit(user: string, dataFolder: string, options: readonly string[]): string {
  const program = fileURLToPath(new URL('./tussock.js', import.meta.url))
  const command = [
    process.execPath,
    '--max-semi-space-size=2',
    program,
    'start',
    '--data',
    dataFolder,
    ...options,
  ]
  return `[Unit]
Description=Tussock, the hub of a habitat survey
After=network.target

[Service]
ExecStart=${command.map(quoted).join(' ')}
User=${user}
SupplementaryGroups=dialout
Restart=on-failure
RestartSec=2
KillSignal=SIGTERM
TimeoutStopSec=10
NoNewPrivileges=yes
ProtectSystem=full
PrivateTmp=yes
ProtectKernelTunables=yes
ProtectControlGroups=yes

[Install]
WantedBy=multi-user.target`
}

/** One word of a unit file: systemd reads `%` and `$` in it, unless they are doubled. */
function quoted(word: string): string {
  const text = word
    .replaceAll('\\', '\\\\')
    .replaceAll('"', '\\"')
    .replaceAll('%', '%%')
    .replaceAll('$', '$$$$')
  return /^[\w@%+=:,./-]+$/.test(text) ? text : `"${text}"`
}
