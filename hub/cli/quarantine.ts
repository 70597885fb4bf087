import { rfc3339 } from '../clock.ts'
import { defaultDataFolder } from '../environment.ts'
import { errorCatalogue, isErrorCode } from '../errors.ts'
import { showBytes } from '../http/explain.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'
import { readHere } from './running-hub.ts'

export const quarantine: Command = {
  name: 'quarantine',
  summary: 'List what could not be read, newest first, with the reason',
  usage: `tussock quarantine [--limit N] [--json] [--data FOLDER]
  --json    one JSON line each, with all the bytes as base64`,

  async run(args) {
    const { values } = readOptions(args, {
      data: { type: 'string' },
      limit: { type: 'string', default: '50' },
      json: { type: 'boolean', default: false },
    })
    const reader = readHere(values.data ?? defaultDataFolder())
    try {
      const rows = reader.quarantine(
        Number.MAX_SAFE_INTEGER,
        wholeNumber(values.limit, '--limit', 1, 1_000_000),
      )
      for (const { id, arrivedMs, source, board, code, message, bytes } of rows) {
        const arrived = rfc3339(arrivedMs)
        if (values.json)
          printLine(
            JSON.stringify({ id, arrived, source, board, code, message, bytes: bytes.toString('base64') }),
          )
        else {
          const remedy = isErrorCode(code) ? ` ${errorCatalogue[code].remedy}` : ''
          printLine(`#${id}  ${arrived}  ${code}: ${message}${remedy}\n      ${showBytes(bytes, 120)}`)
        }
      }
    } finally {
      reader.close()
    }
    return undefined
  },
}
