import { systemClock } from '../clock.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { readinessOf } from '../survey/readiness.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { readHere } from './running-hub.ts'

export const readiness: Command = {
  name: 'readiness',
  summary: 'Which probes may go out, and why not; exit 1 while one may not',
  usage: `tussock readiness [--survey ID] [--json] [--data FOLDER]`,

  async run(args) {
    const { values } = readOptions(args, {
      survey: { type: 'string' },
      json: { type: 'boolean', default: false },
      data: { type: 'string' },
    })
    const reader = readHere(values.data ?? defaultDataFolder())
    try {
      const surveys = reader.surveys().filter(({ id }) => values.survey === undefined || id === values.survey)
      if (surveys.length === 0) throw new HubError('E_SURVEY_UNKNOWN', 'There is no such survey here.')
      const probes = surveys.flatMap((survey) => readinessOf(survey, systemClock.nowMs()))
      if (values.json) printLine(JSON.stringify(probes, null, 2))
      else {
        for (const { probe, quantity, state, why } of probes)
          printLine(`${probe.padEnd(14)} ${quantity.padEnd(18)} ${state.padEnd(17)} ${why}`)
        const ready = probes.filter(({ mayGoOut }) => mayGoOut).length
        printLine(`${ready} of ${probes.length} probes may go out.`)
      }
      return probes.every(({ mayGoOut, state }) => mayGoOut || state === 'withdrawn') ? 0 : 1
    } finally {
      reader.close()
    }
  },
}
