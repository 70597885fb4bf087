import { type ExportName, studyExportQuery } from '../../../hub/contract/export-api.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { openExport } from '../../../hub/export/open-export.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'

export const madeAt = Date.UTC(2026, 5, 13, 8)

/** Q1 with a board that logs, Q2 with a carried thermometer; a decision, plants, animals, awkward names. */
export function studySurvey(): SurveyFile {
  const survey = exampleSurvey()
  survey.probes.push({
    id: 'TEMP-2',
    quantity: 'soil_temperature',
    method: { depthCentimetres: 5 },
    board: 'sedge-2',
    channel: 'temperature',
    isCarried: true,
  })
  survey.calibrations.push({
    id: 'temp-cal-2',
    probe: 'TEMP-2',
    validFrom: '2026-06-12T07:00:00Z',
    note: '=1+1, with a comma and “quotes"',
    recipe: { kind: 'digital-temperature', offsetCelsius: 0.25 },
  })
  survey.decisions = [
    {
      id: 'd1',
      probe: 'TEMP-1',
      from: '2026-06-12T09:00:10Z',
      to: '2026-06-12T09:00:20Z',
      action: 'exclude',
      reason: 'a foot on the cable',
      by: 'G3',
      at: '2026-06-12T12:00:00Z',
    },
  ]
  survey.traps = [
    {
      id: 'P1',
      method: 'pitfall trap',
      quadrat: 'Q1',
      setAt: '2026-06-12T09:00:00Z',
      checkWithinHours: 24,
      checks: [{ at: '2026-06-12T09:10:00Z', isClosed: true }],
    },
  ]
  return survey
}

const SPECIES = [
  'quadrat;Bramble;Carex sp.;bare ground',
  'Q1;35%;0%;10%',
  'q 2;+;12,5%;80%',
  'Q7;1%;1%;1%',
  '',
].join('\n')
const ANIMALS = [
  'station,method,animal,count',
  'P1,pitfall trap,ground beetle,3',
  'P1,pitfall trap,woodlouse,0',
  '',
].join('\n')

/** Fills a data folder through wire, intake and store, and leaves it closed, as a stopped hub does. */
export function fillStudy(folder: string, survey = studySurvey()): void {
  const hub = new SmallHub(folder)
  hub.keeper.save(survey, 'test')
  for (let second = 0; second < 120; second++)
    hub.send(nineOClock + second * 1000, [
      { bn: 'sedge-1/', n: 'temperature', u: 'Cel', v: 12 + Math.sin(second / 7) },
      { n: 'ph', u: 'mV', v: 60 + second / 10 },
      { n: 'wind', u: 'Hz', v: second % 5 },
    ])
  hub.send(nineOClock + 121_000, [{ n: 'sedge-1/temperature', u: 'Cel', v: -127 }])
  for (let second = 0; second < 30; second++)
    hub.send(nineOClock + second * 1000, [{ n: 'sedge-2/temperature', u: 'Cel', v: 15 + (second % 3) / 10 }])
  for (const [index, from] of [0, 10, 20].entries())
    hub.keeper.keepSpot({
      id: `spot-000${index}`,
      survey: survey.id,
      quadrat: 'Q2',
      probe: 'TEMP-2',
      by: 'G3',
      receivedAt: '2026-06-12T09:05:00Z',
      phoneAheadSeconds: 0,
      isTyped: false,
      replicates: [
        {
          from: new Date(nineOClock + from * 1000).toISOString(),
          to: new Date(nineOClock + (from + 8) * 1000).toISOString(),
          isSteady: true,
        },
      ],
      isTakenBack: false,
      amendments: [],
    })
  const sheet = { survey: survey.id, atMs: madeAt - 60_000, by: 'G3', answers: {} }
  hub.writer.sheets.add({
    ...sheet,
    kind: 'species',
    name: '../plants of 12 June.csv',
    bytes: Buffer.from(SPECIES),
  })
  hub.writer.sheets.add({ ...sheet, kind: 'animals', name: 'animals.csv', bytes: Buffer.from(ANIMALS) })
  hub.writer.seal()
  hub.recompute()
  hub.review()
  hub.close()
}

/** One export of the study in a data folder, whole. */
export async function exported(
  folder: string,
  name: ExportName,
  wish: Record<string, string> = {},
): Promise<Uint8Array> {
  const facts = { version: '0.1.0', nowMs: () => madeAt, settlesWithinMs: 0 }
  const { pieces, close } = await openExport(folder, 'example', name, studyExportQuery.parse(wish), facts)
  const parts: Uint8Array[] = []
  for await (const piece of pieces) parts.push(piece)
  close()
  return Buffer.concat(parts)
}
