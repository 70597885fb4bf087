import { OpenAPIHono } from '@hono/zod-openapi'
import { afterEach } from 'vitest'
import type { Spot } from '../../../../hub/contract/spot.ts'
import { SurveyFile } from '../../../../hub/contract/survey.ts'
import type { PageSide } from '../../../../hub/http/page-side.ts'
import { routeReport } from '../../../../hub/http/report-routes.ts'
import type { ReportSource } from '../../../../hub/study/report/report-facts.ts'
import { SmallHub } from '../../../support/small-hub.ts'
import { temporaryFolder } from '../../../support/temporary-folder.ts'

/** 09:00 UTC on the day of the survey. */
export const STARTS_MS = Date.UTC(2026, 5, 12, 9)

const QUADRATS = 8
/** mV of the electrode at each quadrat; +84.0 mV at 15 °C is pH 5.65 in story A01 */
const PH_MILLIVOLT = [120, 110, 98, 84, 76, 60, 55, 40]
const LUX = [900, 1100, 1500, 4000, 9000, 16_000, 21_000, 23_000]
const SKY_LUX = 25_000
const CELSIUS = [11.2, 11.4, 11.9, 12.6, 13.8, 14.9, 15.5, 15.7]

const label = (index: number) => `Q${index + 1}`
const iso = (ms: number) => new Date(ms).toISOString()
const numbers = Array.from({ length: QUADRATS }, (_, index) => index)

/**
 * A made-up survey from shade to light: eight quadrats every 2 m, a carried pH electrode calibrated as in story A01, a
 * thermometer and a light sensor at every quadrat, one light sensor under the open sky.
 * @param change  what is to be otherwise in its file
 */
export function shadeSurvey(change: Record<string, unknown> = {}): SurveyFile {
  return SurveyFile.parse({
    tussockSurvey: 1,
    id: 'shade',
    title: 'From shade to light',
    site: {
      name: 'Invented wood',
      latitude: 51.23456,
      longitude: -0.98765,
      timeZone: 'Europe/London',
      notes: 'Aim: does grass follow the light?\nA bank beside a path.',
    },
    from: '2026-06-12',
    to: '2026-06-12',
    transects: [
      {
        id: 'T1',
        lengthMetres: 16,
        bearingDegrees: 90,
        zones: [
          { name: 'shade', fromMetres: 0, toMetres: 7 },
          { name: 'open', fromMetres: 7, toMetres: 16 },
        ],
      },
    ],
    plan: [{ rule: 'along', transect: 'T1', everyMetres: 2, lastMetres: 14 }],
    quadrats: numbers.map((index) => ({ label: label(index), transect: 'T1', distanceMetres: 2 * index })),
    groups: [{ label: 'G3' }],
    boards: [{ name: 'sedge-1', sampleIntervalSeconds: 10 }],
    probes: [
      {
        id: 'PH-1',
        serialNumber: 'PH-0042',
        quantity: 'soil_ph',
        method: { way: 'slurry 1:2.5' },
        board: 'sedge-1',
        channel: 'ph',
        isCarried: true,
      },
      {
        id: 'SKY-1',
        quantity: 'illuminance',
        method: { heightMetres: 1.5 },
        board: 'sedge-1',
        channel: 'sky',
        reference: 'open-sky',
      },
      ...numbers.flatMap((index) => [
        {
          id: `TEMP-${index + 1}`,
          quantity: 'soil_temperature',
          method: { depthCentimetres: 5 },
          board: 'sedge-1',
          channel: `t${index + 1}`,
        },
        {
          id: `LUX-${index + 1}`,
          quantity: 'illuminance',
          method: { heightMetres: 0.2 },
          board: 'sedge-1',
          channel: `l${index + 1}`,
        },
      ]),
    ],
    placements: numbers.flatMap((index) =>
      ['TEMP', 'LUX'].map((kind) => ({
        probe: `${kind}-${index + 1}`,
        quadrat: label(index),
        from: '2026-06-12T08:00:00Z',
      })),
    ),
    calibrations: [
      phCalibration(),
      ...['SKY-1', ...numbers.map((index) => `LUX-${index + 1}`)].map((probe) => ({
        id: `cal-${probe}`,
        probe,
        validFrom: '2026-06-12T07:00:00Z',
        recipe: { kind: 'already-a-value', unit: 'lx', standardUncertainty: 20 },
      })),
      ...numbers.map((index) => ({
        id: `cal-TEMP-${index + 1}`,
        probe: `TEMP-${index + 1}`,
        validFrom: '2026-06-12T07:00:00Z',
        recipe: { kind: 'digital-temperature', icePoint: [0.62, 0.6, 0.63, 0.61], toleranceCelsius: 0.5 },
      })),
    ],
    ...change,
  })
}

/** Story A01: technical 7 gives +6.0 mV and 4 gives +176.3 mV at 15 °C. */
export function phCalibration(sevenMillivolt = 6.0) {
  return {
    id: 'ph-cal-1',
    probe: 'PH-1',
    validFrom: '2026-06-12T07:00:00Z',
    by: 'G3',
    recipe: {
      kind: 'ph-electrode',
      points: [
        { bufferSet: 'technical', buffer: '7', temperatureCelsius: 15, millivolt: sevenMillivolt },
        { bufferSet: 'technical', buffer: '4', temperatureCelsius: 15, millivolt: 176.3 },
      ],
    },
  }
}

/** As a class types it; Q6 was not looked at for ivy, and Q8 not at all. */
export const SPECIES_SHEET = `quadrat,bramble,ivy,grass
Q1,70,40,0
Q2,55,35,0
Q3,40,30,5
Q4,20,10,12
Q5,5,0,35
Q6,0,n/a,60
Q7,0,0,75
Q8,0,0,90
`

let sheetsAdded = 0
const opened: ShadeHub[] = []
afterEach(() => {
  for (const { hub } of opened.splice(0)) hub.close()
})

/** A small hub that holds the survey, its readings, three insertions of the electrode at every quadrat, and its species; it is
 * closed after the test. */
export class ShadeHub {
  readonly hub: SmallHub
  readonly folder: string
  /** the routes of pictures and report alone */
  readonly app: OpenAPIHono

  constructor(survey: SurveyFile = shadeSurvey(), sheet: string | null = SPECIES_SHEET) {
    this.folder = temporaryFolder()
    this.hub = new SmallHub(this.folder)
    this.hub.keeper.save(survey, 'test')
    sendReadings(this.hub)
    for (const index of numbers) this.hub.keeper.keepSpot(spotAt(index))
    this.hub.review()
    this.hub.recompute()
    if (sheet !== null) this.addSheet(sheet)
    this.app = new OpenAPIHono()
    const side = {
      reader: this.hub.reader,
      timelines: () => this.hub.keeper.timelines,
      facts: { version: '0' },
    } as unknown as PageSide
    routeReport(this.app as never, side)
    opened.push(this)
  }

  source(): ReportSource {
    const { reader, keeper } = this.hub
    return { reader, timelines: keeper.timelines, survey: keeper.named('shade'), version: '0' }
  }

  addSheet(text: string, kind: 'species' | 'animals' = 'species'): void {
    this.hub.writer.sheets.add({
      survey: 'shade',
      kind,
      name: `${kind}.csv`,
      // sheets are remembered by survey, number and moment: those of other tests have other moments
      atMs: STARTS_MS + ++sheetsAdded,
      by: 'G3',
      bytes: new TextEncoder().encode(text),
      answers: {},
    })
  }
}

const insertionMs = (quadrat: number, replicate: number) => STARTS_MS + quadrat * 240_000 + replicate * 60_000

/** A small unevenness that is the same in every run. */
const uneven = (step: number) => ((step * 7919) % 13) / 13 - 0.5

function sendReadings(hub: SmallHub): void {
  const seconds = STARTS_MS / 1000
  for (let step = 0; step < 200; step++) {
    const bt = seconds + step * 10
    const standing = numbers.flatMap((index) => [
      { n: `t${index + 1}`, u: 'Cel', v: CELSIUS[index]! + 0.615 + 0.1 * uneven(step + index) },
      { n: `l${index + 1}`, u: 'lx', v: LUX[index]! * (1 + 0.04 * uneven(step * 3 + index)) },
    ])
    hub.send(bt * 1000 + 400, [
      { bn: 'sedge-1/', bt, n: 'sky', u: 'lx', v: SKY_LUX * (1 + 0.02 * uneven(step)) },
      ...standing,
    ])
  }
  for (const index of numbers)
    for (let replicate = 0; replicate < 3; replicate++) {
      const at = insertionMs(index, replicate)
      const records = [1, 6, 11, 16].map((after) => ({
        n: 'ph',
        u: 'mV',
        t: after,
        v: PH_MILLIVOLT[index]! + 4 * (replicate - 1),
      }))
      hub.send(at + 20_000, [{ bn: 'sedge-1/', bt: at / 1000, ...records[0] }, ...records.slice(1)])
    }
}

function spotAt(index: number): Spot {
  return {
    id: `spot-${String(index + 1).padStart(8, '0')}`,
    survey: 'shade',
    quadrat: label(index),
    probe: 'PH-1',
    by: 'G3',
    receivedAt: iso(insertionMs(index, 3)),
    phoneAheadSeconds: 0,
    isTyped: false,
    isTakenBack: false,
    amendments: [],
    replicates: [0, 1, 2].map((replicate) => ({
      from: iso(insertionMs(index, replicate)),
      to: iso(insertionMs(index, replicate) + 20_000),
      isSteady: true,
    })),
  }
}
