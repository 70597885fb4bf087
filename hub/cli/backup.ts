import { makeBackup } from '../backup/make-backup.ts'
import { systemClock } from '../clock.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'

export const backup: Command = {
  name: 'backup',
  summary:
    'Copy the readings to another folder or a USB stick, and prove the copy; the hub may go on running',
  usage: `tussock backup --to FOLDER [options]

  --to FOLDER    where the copy goes: another disk, a USB stick
  --keep N       remove the oldest so that N remain (default 14)
  --data FOLDER  where readings are kept

To have them made by the hub itself: tussock start --backup-to FOLDER --backup-every 30`,

  async run(args) {
    const { values } = readOptions(args, {
      to: { type: 'string' },
      keep: { type: 'string', default: '14' },
      data: { type: 'string' },
    })
    if (values.to === undefined) throw new HubError('E_COMMAND', 'Say where to, with --to FOLDER.')
    const keep = wholeNumber(values.keep, '--keep', 1, 10_000)
    const made = await makeBackup(values.data ?? defaultDataFolder(), values.to, keep, systemClock.nowMs())
    printLine(`${made.file}: ${made.readings} readings in ${made.messages} messages, read back and sound.`)
    if (made.removed.length > 0) printLine(`Removed, to keep ${keep}: ${made.removed.join(', ')}`)
    return 0
  },
}
