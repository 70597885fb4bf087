import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { systemClock } from '../clock.ts'
import { ExportName, studyExportQuery } from '../contract/export-api.ts'
import { exportQuery } from '../contract/export-query.ts'
import { defaultDataFolder, readVersion } from '../environment.ts'
import { HubError } from '../errors.ts'
import { listExports } from '../export/exports.ts'
import { openExport } from '../export/open-export.ts'
import { readingsCsv } from '../export/readings-csv.ts'
import { pathText } from '../survey/read-survey-file.ts'
import { Timelines } from '../survey/timeline.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { readHere } from './running-hub.ts'
import { chosenSurvey } from './survey.ts'
import { writeWhole } from './write-whole.ts'

const READINGS = {
  name: 'readings',
  extension: 'csv',
  summary: 'readings as CSV, the same bytes as the page’s download',
}

export const exportCommand: Command = {
  name: 'export',
  summary: 'Write readings as CSV, or a whole survey in an open format',
  usage: `tussock export readings [options]
  --set clean|excluded|all
                       clean (default): placed, calibrated, not suspect; all: everything, with flags;
                       excluded: what is not clean, each reading with its reason (clean + excluded = all)
  --survey ID  --quadrat LABEL  --quantity NAME
  --from TIME  --to TIME    with their zone, such as 2026-06-12T09:30:00Z
  --method shown       three more columns: way, depth and height of the measurement
  --drift shown        two more columns: the value corrected for drift, where that was asked for

tussock export tables|darwin-core|parquet|workbook|bundle [options]
  --survey ID          may be left out when there is only one
  --coordinates exact|blurred|none
                       the place of the site in darwin-core: blurred (default) is rounded to 0.01 degrees
  --licence CC0-1.0|CC-BY-4.0|CC-BY-NC-4.0
                       written into the file; without it the file says that none was given
  --window all|common  summaries of all the time, or only of that in which every standing probe was logging
  --hydrogen-ions      pH of the mean hydrogen-ion concentration as well

  --out FILE           instead of standard output
  --data FOLDER
  --list               what each of them is`,

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
      coordinates: { type: 'string' },
      licence: { type: 'string' },
      window: { type: 'string' },
      'hydrogen-ions': { type: 'boolean' },
      out: { type: 'string' },
      data: { type: 'string' },
      list: { type: 'boolean' },
    })
    const { out, data, list, coordinates, licence, window, 'hydrogen-ions': hydrogenIons, ...wish } = values
    if (list) {
      for (const { name, extension, summary } of [READINGS, ...listExports()])
        printLine(`${name.padEnd(12)} .${extension.padEnd(8)} ${summary}`)
      return undefined
    }
    const folder = data ?? defaultDataFolder()
    const [name = ''] = positionals
    if (name === 'readings') {
      refuseOthers({ coordinates, licence, window, 'hydrogen-ions': hydrogenIons }, name)
      await writeReadings(folder, wish, out)
      return undefined
    }
    const known = ExportName.safeParse(name)
    if (!known.success)
      throw new HubError(
        'E_COMMAND',
        `export can write readings, ${ExportName.options.join(', ')}, not "${name}".`,
      )
    const { survey, ...ofReadings } = wish
    refuseOthers(ofReadings, name)
    const asked = { coordinates, licence, window, ...(hydrogenIons ? { hydrogenIons: 'yes' } : {}) }
    const query = studyExportQuery.safeParse(asked)
    if (!query.success) throw new HubError('E_QUERY', `${faultsOf(query.error)}.`)
    const { id } = surveyHere(folder, survey)
    const facts = { version: readVersion(), nowMs: () => systemClock.nowMs() }
    const { pieces, close } = await openExport(folder, id, known.data, query.data, facts)
    await write(pieces, out).finally(close)
    return undefined
  },
}

function refuseOthers(others: Record<string, unknown>, name: string): void {
  const given = Object.entries(others).find(([, value]) => value !== undefined)
  if (given) throw new HubError('E_COMMAND', `export ${name} has no option --${given[0]}.`)
}

function surveyHere(folder: string, id: string | undefined): { id: string } {
  const reader = readHere(folder)
  try {
    return chosenSurvey(reader.surveys(), id)
  } finally {
    reader.close()
  }
}

async function writeReadings(folder: string, wish: unknown, out: string | undefined): Promise<void> {
  const query = exportQuery.safeParse(wish)
  if (!query.success) throw new HubError('E_QUERY', `${faultsOf(query.error)}.`)
  const reader = readHere(folder)
  try {
    const timelines = new Timelines(reader.surveys(), reader.spots())
    const { survey } = query.data
    if (survey !== undefined && !timelines.surveys.some(({ id }) => id === survey))
      throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${survey}" here.`)
    await write(readingsCsv(reader, timelines, query.data), out)
  } finally {
    reader.close()
  }
}

function faultsOf({
  issues,
}: {
  issues: readonly { path: readonly PropertyKey[]; message: string }[]
}): string {
  return issues.map(({ path, message }) => `--${pathText(path)}: ${message}`).join('; ')
}

async function write(
  pieces: Iterable<string> | AsyncIterable<Uint8Array>,
  out: string | undefined,
): Promise<void> {
  if (out === undefined) await pipeline(Readable.from(pieces), process.stdout, { end: false })
  else await writeWhole(out, pieces)
}
