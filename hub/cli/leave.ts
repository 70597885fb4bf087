import type { Leave } from '../contract/field.ts'
import type { ErrorBody } from '../contract/status.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError, messageOf } from '../errors.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { leaveReport } from './leave-report.ts'
import { readHere, runningHub } from './running-hub.ts'

export const leave: Command = {
  name: 'leave',
  summary: 'May the class go? What is missing first, in the order of least walking; exit 1 while it may not',
  usage: `tussock leave [--survey ID] [--at QUADRAT] [--json] [--data FOLDER]

Asks the hub that is running on the data folder: who is silent now only a running hub can say.`,

  async run(args) {
    const { values } = readOptions(args, {
      survey: { type: 'string' },
      at: { type: 'string' },
      json: { type: 'boolean', default: false },
      data: { type: 'string' },
    })
    const folder = values.data ?? defaultDataFolder()
    const address = runningHub(folder)
    if (address === null) throw new HubError('E_NO_HUB', `No hub is running on ${folder}.`)
    const at = values.at === undefined ? '' : `?at=${encodeURIComponent(values.at)}`
    const survey = values.survey ?? onlySurvey(folder)
    const response = await fetch(`${address}/api/surveys/${encodeURIComponent(survey)}/leave${at}`).catch(
      (error: unknown) => {
        throw new HubError('E_NO_HUB', `The hub at ${address} does not answer (${messageOf(error)}).`)
      },
    )
    if (!response.ok) {
      // the hub's own words hold the remedy already
      const { code, message } = ((await response.json()) as ErrorBody).error
      process.stderr.write(`${code}: ${message}\n`)
      return 2
    }
    const answer = (await response.json()) as Leave
    printLine(values.json ? JSON.stringify(answer, null, 2) : leaveReport(answer))
    return answer.maySafelyGo ? 0 : 1
  },
}

function onlySurvey(folder: string): string {
  const reader = readHere(folder)
  try {
    const ids = reader.surveys().map(({ id }) => id)
    if (ids.length !== 1)
      throw new HubError('E_COMMAND', `Say which survey with --survey: ${ids.join(', ') || 'there is none'}.`)
    return ids[0]!
  } finally {
    reader.close()
  }
}
