import type { SurveyFile } from '../hub/contract/survey.ts'
import { quadratDistances, readNumber } from './quadrat-distances.ts'

/** What is written on the set-up page, as it is typed. */
export interface SetUpForm {
  title: string
  siteName: string
  latitude: string
  longitude: string
  timeZone: string
  date: string
  lengthMetres: string
  bearing: string
  spacing: string
  side: string
  gridDivisions: string
  layout: 'every' | 'list'
  firstAt: string
  everyMetres: string
  distances: string
  zones: { name: string; from: string; to: string }[]
}

export type FieldName = Exclude<keyof SetUpForm, 'zones' | 'layout'> | `zone ${number}`

export function freshSetUp(timeZone: string, date: string): SetUpForm {
  return {
    title: '',
    siteName: '',
    latitude: '',
    longitude: '',
    timeZone,
    date,
    lengthMetres: '20',
    bearing: '',
    spacing: '0.5',
    side: '0.5',
    gridDivisions: '10',
    layout: 'every',
    firstAt: '1',
    everyMetres: '2',
    distances: '',
    zones: [],
  }
}

/** A name for files and addresses, made from the title and free among those in use. */
export function surveyIdFor(title: string, taken: readonly string[]): string {
  const plain = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48)
  const base = plain === '' ? 'survey' : plain
  for (let number = 1; ; number++) {
    const id = number === 1 ? base : `${base}-${number}`
    if (!taken.includes(id)) return id
  }
}

/** The survey file of a form that has no faults. */
export function surveyOf(form: SetUpForm, id: string): SurveyFile {
  const number = (text: string) => readNumber(text) ?? Number.NaN
  const maybe = (name: string, text: string) => (text.trim() === '' ? {} : { [name]: number(text) })
  const side = number(form.side)
  return {
    tussockSurvey: 1,
    id,
    title: form.title.trim(),
    site: {
      name: form.siteName.trim(),
      ...maybe('latitude', form.latitude),
      ...maybe('longitude', form.longitude),
      ...(form.timeZone.trim() === '' ? {} : { timeZone: form.timeZone.trim() }),
    },
    ...(form.date === '' ? {} : { from: form.date }),
    transects: [
      {
        id: 'T1',
        lengthMetres: number(form.lengthMetres),
        ...maybe('bearingDegrees', form.bearing),
        markSpacingMetres: number(form.spacing),
        zones: form.zones.map(({ name, from, to }) => ({
          name: name.trim(),
          fromMetres: number(from),
          toMetres: number(to),
        })),
      },
    ],
    quadrats: quadratDistances(form).map((distanceMetres, index) => ({
      label: `Q${index + 1}`,
      transect: 'T1',
      distanceMetres,
      sideMetres: side,
      gridDivisions: number(form.gridDivisions),
    })),
    boards: [],
    probes: [],
    placements: [],
    calibrations: [],
  }
}
