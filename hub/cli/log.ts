import { existsSync } from 'node:fs'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { readLog } from '../log/event-log.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'

export const log: Command = {
  name: 'log',
  summary: 'What the hub did and what went wrong, newest last',
  usage: `tussock log [--limit N] [--wrong] [--json] [--data FOLDER]

  --limit N      how many of the newest lines (default 50)
  --wrong        warnings and errors only
  --json         the lines as they are kept: JSON, one a line

They are kept in the folder log beside the readings: five files of at most 1 MB, the oldest forgotten.`,

  async run(args) {
    const { values } = readOptions(args, {
      limit: { type: 'string', default: '50' },
      wrong: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
      data: { type: 'string' },
    })
    const folder = values.data ?? defaultDataFolder()
    if (!existsSync(folder)) throw new HubError('E_DATA_NOT_OURS', `There is no folder ${folder}.`)
    const limit = wholeNumber(values.limit, '--limit', 1, 1_000_000)
    const lines = readLog(folder).filter(({ level }) => !values.wrong || level !== 'info')
    for (const line of lines.slice(-limit))
      printLine(
        values.json
          ? JSON.stringify(line)
          : `${line.time}  ${line.level.padEnd('warning'.length)}  ${line.what}: ${line.said}`,
      )
    return 0
  },
}
