import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { explainReading } from '../http/explain.ts'
import { Timelines } from '../survey/timeline.ts'
import { type Command, printLine, readOptions, wholeNumber } from './command.ts'
import { readHere } from './running-hub.ts'

export const explain: Command = {
  name: 'explain',
  summary: 'Walk back from one reading to the bytes its board sent',
  usage:
    'tussock explain READING [--data FOLDER]   the number of the reading, as the page shows it; prints JSON',

  async run(args) {
    const { values, positionals } = readOptions(args, { data: { type: 'string' } })
    const id = wholeNumber(positionals[0] ?? '', 'The reading', 1, Number.MAX_SAFE_INTEGER)
    const reader = readHere(values.data ?? defaultDataFolder())
    try {
      const explained = explainReading(reader, new Timelines(reader.surveys(), reader.spots()), id)
      if (!explained) throw new HubError('E_NOT_FOUND', `There is no reading ${id}.`)
      printLine(JSON.stringify(explained, null, 2))
    } finally {
      reader.close()
    }
    return undefined
  },
}
