import { readFile } from 'node:fs/promises'
import { z } from 'zod'
import { SurveyFile } from '../contract/survey.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError, messageOf } from '../errors.ts'
import { withSpots } from '../export/with-spots.ts'
import { readSurveyFile } from '../survey/read-survey-file.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { changeHere, readHere, runningHub, sendToHub } from './running-hub.ts'
import { writeWhole } from './write-whole.ts'

export const survey: Command = {
  name: 'survey',
  summary: 'Load, save and list survey files; print their schema',
  usage: `tussock survey load FILE [--data FOLDER]        check the file and load it, into the running hub if there is one
tussock survey save [ID] [--to FILE] [--data FOLDER]  write a survey as its file, spot readings too (to standard output without --to)
tussock survey list [--data FOLDER]
tussock survey check FILE                       say what is wrong with a file, change nothing
tussock survey schema                           JSON Schema of the file`,

  async run(args) {
    const { values, positionals } = readOptions(args, { data: { type: 'string' }, to: { type: 'string' } })
    const [what, name] = positionals
    const folder = values.data ?? defaultDataFolder()
    switch (what) {
      case 'load':
        await load(await readJson(name), folder)
        return
      case 'check': {
        const { survey, faults } = readSurveyFile(await readJson(name))
        if (survey === null) throw new SurveyRefused(faults)
        printLine(`"${survey.title}" is in order.`)
        return
      }
      case 'save': {
        const text = `${JSON.stringify(chosenSurvey(readSurveys(folder), name), null, 2)}\n`
        if (values.to === undefined) process.stdout.write(text)
        else await writeWhole(values.to, text)
        return
      }
      case 'list':
        for (const { id, title, quadrats } of readSurveys(folder))
          printLine(`${id}\t${title}\t${quadrats.length} quadrats`)
        return
      case 'schema':
        printLine(JSON.stringify(z.toJSONSchema(SurveyFile, { io: 'input' }), null, 2))
        return
      default:
        throw new HubError(
          'E_COMMAND',
          `survey can load, save, list, check or print its schema, not "${what ?? ''}".`,
        )
    }
  },
}

async function readJson(path: string | undefined): Promise<unknown> {
  if (path === undefined) throw new HubError('E_COMMAND', 'Name the survey file.')
  let text: string
  try {
    text = await readFile(path, 'utf8')
  } catch (error) {
    throw new HubError('E_COMMAND', `${path} cannot be read (${messageOf(error)}).`, { cause: error })
  }
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new SurveyRefused([{ path: '', message: `not JSON (${messageOf(error)})` }])
  }
}

async function load(file: unknown, folder: string): Promise<void> {
  const { survey, faults } = readSurveyFile(file)
  if (survey === null) throw new SurveyRefused(faults)
  const address = runningHub(folder)
  if (address === null) await changeHere(folder, (keeper) => keeper.save(survey, 'loaded from a file'))
  else await sendToHub(address, 'PUT', `/api/surveys/${encodeURIComponent(survey.id)}`, survey)
  printLine(
    `Loaded "${survey.title}": ${survey.quadrats.length} quadrats, ${survey.probes.length} probes, ${survey.calibrations.length} calibrations.`,
  )
}

function readSurveys(folder: string): SurveyFile[] {
  const reader = readHere(folder)
  try {
    const spots = reader.spots()
    return reader.surveys().map((survey) => withSpots(survey, spots))
  } finally {
    reader.close()
  }
}

/** The survey of that id; without one, the only survey there is. @throws HubError `E_SURVEY_UNKNOWN` */
export function chosenSurvey(surveys: readonly SurveyFile[], id: string | undefined): SurveyFile {
  const found = id === undefined && surveys.length === 1 ? surveys[0] : surveys.find((kept) => kept.id === id)
  if (found) return found
  const known = surveys.map((kept) => kept.id).join(', ') || 'none'
  throw new HubError('E_SURVEY_UNKNOWN', `Which survey? Known here: ${known}.`)
}
