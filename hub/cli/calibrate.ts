import { isRefusal, type Recipe } from '../../calibration/index.ts'
import { rfc3339, systemClock } from '../clock.ts'
import type { AddCalibration } from '../contract/changes.ts'
import { Instant, Who } from '../contract/names.ts'
import type { QuadratMove } from '../contract/readiness.ts'
import type { HubNow } from '../contract/status.ts'
import type { Probe, SurveyFile } from '../contract/survey.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { addCalibration } from '../survey/change-survey.ts'
import { previewChange } from '../survey/preview-change.ts'
import { readSurveyFile } from '../survey/read-survey-file.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import { Timelines } from '../survey/timeline.ts'
import { reportCalibration, reportMoves } from './calibration-report.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { holdPoints } from './hold-points.ts'
import { readPointsFile } from './points-file.ts'
import { changeHere, readHere, runningHub, sendToHub } from './running-hub.ts'

export const calibrate: Command = {
  name: 'calibrate',
  summary: 'Calibrate a probe: at the bench with a running hub, or from a file of points',
  usage: `tussock calibrate PROBE                    hold the probe in each reference; needs the hub to be running
tussock calibrate PROBE --points FILE      from a file: a recipe as a survey file has it, or
      {"procedure": "ph-buffers", "settings": {"signalIs": "electrode"}, "points": [
        {"signal": 6.0, "scatter": 0.2, "n": 4, "fields": {"bufferSet": "technical", "buffer": "7", "temperatureCelsius": 15}},
        {"signal": 176.3, "fields": {"bufferSet": "technical", "buffer": "4", "temperatureCelsius": 15}}]}

  --survey ID          where there are several
  --procedure ID       another way than the usual one of its quantity
  --valid-from TIME    in force from then on (default: now), such as 2026-06-12T08:30:00Z
  --by LABEL           group label or initials
  --accept             save it; without this it is only shown, with what it would change
  --data FOLDER`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      points: { type: 'string' },
      survey: { type: 'string' },
      procedure: { type: 'string' },
      'valid-from': { type: 'string' },
      by: { type: 'string' },
      accept: { type: 'boolean', default: false },
      data: { type: 'string' },
    })
    const [name] = positionals
    if (name === undefined) throw new HubError('E_COMMAND', 'Name the probe.')
    const by = whoIn(values.by)
    const folder = values.data ?? defaultDataFolder()
    const { survey, probe } = findProbe(folder, name, values.survey)
    const validFrom = values['valid-from'] ?? rfc3339(await hubNowMs(folder))
    if (!Instant.safeParse(validFrom).success)
      throw new HubError('E_QUERY', `--valid-from: a time with its zone, not "${validFrom}".`)
    const held =
      values.points === undefined
        ? await holdPoints(folder, probe, values.procedure)
        : await readPointsFile(values.points)
    const { text, fitted } = reportCalibration(held)
    printLine(text)
    if (isRefusal(fitted)) return 1
    const calibration = asCalibration(survey, probe, held, validFrom, by)
    const { faults } = readSurveyFile(addCalibration(survey, calibration))
    if (faults.length > 0) throw new SurveyRefused(faults)
    printLine(reportMoves(await preview(folder, survey, calibration)))
    if (!values.accept) {
      printLine('Not saved. Add --accept to save it.')
      return 0
    }
    await save(folder, survey, calibration)
    const force =
      fitted.verdict === 'fail' ? 'on record; the calibration before it stays in force' : 'in force'
    printLine(`Saved as ${calibration.id}, ${force} from ${validFrom}.`)
    return 0
  },
}

function findProbe(
  folder: string,
  name: string,
  surveyId: string | undefined,
): { survey: SurveyFile; probe: Probe } {
  const reader = readHere(folder)
  try {
    const found = reader.surveys().flatMap((survey) => {
      const probe = survey.probes.find((candidate) => candidate.id === name)
      return probe && (surveyId === undefined || survey.id === surveyId) ? [{ survey, probe }] : []
    })
    if (found.length === 1) return found[0]!
    const where = surveyId === undefined ? '' : ` in survey "${surveyId}"`
    throw found.length === 0
      ? new HubError('E_NOT_FOUND', `There is no probe "${name}"${where}.`)
      : new HubError('E_COMMAND', `Several surveys have a probe "${name}": name one with --survey.`)
  } finally {
    reader.close()
  }
}

/** The running hub's clock, which in a rehearsal is its own; otherwise the machine's. */
async function hubNowMs(folder: string): Promise<number> {
  const address = runningHub(folder)
  if (address === null) return systemClock.nowMs()
  const { nowMs } = (await (await fetch(`${address}/api/hub`)).json()) as HubNow
  return nowMs
}

function whoIn(by: string | undefined): string | undefined {
  const read = Who.optional().safeParse(by)
  if (!read.success) throw new HubError('E_COMMAND', `--by: ${read.error.issues[0]!.message}.`)
  return read.data
}

/** An id that says probe and time, and is not taken yet. */
function asCalibration(
  survey: SurveyFile,
  probe: Probe,
  recipe: Recipe,
  validFrom: string,
  by: string | undefined,
): AddCalibration {
  const stem = `${probe.id}-${validFrom.slice(0, 16).replace(/[-:]/g, '').replace('T', '-')}`.slice(0, 60)
  const taken = new Set(survey.calibrations.map(({ id }) => id))
  let id = stem
  for (let n = 2; taken.has(id); n++) id = `${stem}-${n}`
  return { id, probe: probe.id, validFrom, recipe, ...(by === undefined ? {} : { by }) }
}

async function preview(
  folder: string,
  survey: SurveyFile,
  calibration: AddCalibration,
): Promise<QuadratMove[]> {
  const reader = readHere(folder)
  try {
    const present = new Timelines(reader.surveys(), reader.spots())
    return await previewChange(reader, present, addCalibration(survey, calibration))
  } finally {
    reader.close()
  }
}

async function save(folder: string, survey: SurveyFile, calibration: AddCalibration): Promise<void> {
  const address = runningHub(folder)
  if (address !== null)
    await sendToHub(
      address,
      'POST',
      `/api/surveys/${encodeURIComponent(survey.id)}/calibrations`,
      calibration,
    )
  else
    await changeHere(folder, (keeper) =>
      keeper.change(survey.id, `calibrated ${calibration.probe}`, (before) =>
        addCalibration(before, calibration),
      ),
    )
}
