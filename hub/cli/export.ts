import { createWriteStream } from 'node:fs'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { exportQuery } from '../contract/export-query.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { readingsCsv } from '../export/readings-csv.ts'
import { pathText } from '../survey/read-survey-file.ts'
import { Timelines } from '../survey/timeline.ts'
import { type Command, readOptions } from './command.ts'
import { readHere } from './running-hub.ts'

export const exportCommand: Command = {
  name: 'export',
  summary: 'Write readings as CSV, the same bytes as the page’s download',
  usage: `tussock export readings [options]

  --set clean|excluded|all
                       clean (default): placed, calibrated, not suspect; all: everything, with flags;
                       excluded: what is not clean, each reading with its reason (clean + excluded = all)
  --survey ID  --quadrat LABEL  --quantity NAME
  --from TIME  --to TIME    with their zone, such as 2026-06-12T09:30:00Z
  --method shown       three more columns: way, depth and height of the measurement
  --drift shown        two more columns: the value corrected for drift, where that was asked for
  --out FILE           instead of standard output
  --data FOLDER`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      set: { type: 'string' },
      survey: { type: 'string' },
      quadrat: { type: 'string' },
      quantity: { type: 'string' },
      from: { type: 'string' },
      to: { type: 'string' },
      drift: { type: 'string' },
      method: { type: 'string' },
      out: { type: 'string' },
      data: { type: 'string' },
    })
    if (positionals[0] !== 'readings')
      throw new HubError('E_COMMAND', `export can write readings, not "${positionals[0] ?? ''}".`)
    const { out, data, ...wish } = values
    const query = exportQuery.safeParse(wish)
    if (!query.success)
      throw new HubError(
        'E_QUERY',
        `${query.error.issues.map((issue) => `--${pathText(issue.path)}: ${issue.message}`).join('; ')}.`,
      )
    const reader = readHere(data ?? defaultDataFolder())
    try {
      const timelines = new Timelines(reader.surveys(), reader.spots())
      const { survey } = query.data
      if (survey !== undefined && !timelines.surveys.some(({ id }) => id === survey))
        throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${survey}" here.`)
      const pieces = readingsCsv(reader, timelines, query.data)
      await pipeline(Readable.from(pieces), out === undefined ? process.stdout : createWriteStream(out), {
        end: out !== undefined,
      })
    } finally {
      reader.close()
    }
    return undefined
  },
}
