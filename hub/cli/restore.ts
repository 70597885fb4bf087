import { restoreBackup } from '../backup/restore-backup.ts'
import { systemClock } from '../clock.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { type Command, printLine, readOptions } from './command.ts'

export const restore: Command = {
  name: 'restore',
  summary: 'Put a backup in place of the readings; what was there is put aside, not removed',
  usage: `tussock restore BACKUP [--data FOLDER]

BACKUP is a file made by “tussock backup”, or a folder of them: the newest sound one is taken. Stop the hub first.`,

  async run(args) {
    const { values, positionals } = readOptions(args, { data: { type: 'string' } })
    const [from] = positionals
    if (from === undefined) throw new HubError('E_COMMAND', 'Say which backup, or the folder of backups.')
    const folder = values.data ?? defaultDataFolder()
    const restored = await restoreBackup(from, folder, systemClock.nowMs())
    printLine(
      `${folder} now has ${restored.readings} readings in ${restored.messages} messages, from ${restored.from}.`,
    )
    if (restored.aside !== null) printLine(`What was there before is ${restored.aside}.`)
    return 0
  },
}
