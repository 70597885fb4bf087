import { isZone } from './format-time.ts'
import { quadratDistances, readNumber, typedDistances } from './quadrat-distances.ts'
import type { FieldName, SetUpForm } from './set-up-form.ts'

export type SetUpFaults = Partial<Record<FieldName, string>>

/** What keeps the form from becoming a survey, in words for the one who fills it in, by field. */
export function setUpFaults(form: SetUpForm): SetUpFaults {
  const faults: SetUpFaults = {}
  const length = readNumber(form.lengthMetres)
  const within = (
    name: FieldName,
    text: string,
    low: number,
    high: number,
    said: string,
    mayBeEmpty = false,
  ) => {
    if (mayBeEmpty && text.trim() === '') return
    const value = readNumber(text)
    if (value === null || value < low || value > high) faults[name] = said
  }
  if (form.title.trim() === '') faults.title = 'Give the survey a title, such as “Wood edge, June”.'
  if (form.siteName.trim() === '') faults.siteName = 'Name the place.'
  within('latitude', form.latitude, -90, 90, 'A latitude lies between −90 and 90.', true)
  within('longitude', form.longitude, -180, 180, 'A longitude lies between −180 and 180.', true)
  if (form.timeZone.trim() !== '' && !isZone(form.timeZone.trim()))
    faults.timeZone = 'Not a time zone; write it like Europe/Vienna.'
  within('lengthMetres', form.lengthMetres, 0.1, 10_000, 'How long is the tape, in metres?')
  within('bearing', form.bearing, 0, 360, 'A bearing lies between 0 and 360 degrees.', true)
  within(
    'spacing',
    form.spacing,
    0.01,
    length ?? 10_000,
    'Metres between marks: more than 0, no more than the tape.',
  )
  within('side', form.side, 0.01, 100, 'The side of the square in metres, such as 0.5.')
  within('gridDivisions', form.gridDivisions, 1, 100, 'A whole number from 1 to 100.')
  if (!faults.gridDivisions && !Number.isInteger(readNumber(form.gridDivisions)))
    faults.gridDivisions = 'A whole number from 1 to 100.'
  Object.assign(faults, quadratFaults(form, length), zoneFaults(form, length))
  return faults
}

function quadratFaults(form: SetUpForm, length: number | null): SetUpFaults {
  if (form.layout === 'every') {
    const first = readNumber(form.firstAt)
    const every = readNumber(form.everyMetres)
    if (every === null || every <= 0) return { everyMetres: 'How many metres from one quadrat to the next?' }
    if (first === null || first < 0 || (length !== null && first > length))
      return { firstAt: 'The first quadrat lies on the tape, from 0 on.' }
    return {}
  }
  const typed = typedDistances(form.distances)
  if (typed.length === 0) return { distances: 'Write where the quadrats lie, in metres, such as 1 3.5 6.' }
  if (typed.includes(null)) return { distances: 'Only numbers, with spaces between, such as 1 3.5 6.' }
  const distances = quadratDistances(form)
  if (distances.some((distance) => distance < 0))
    return { distances: 'Distances count from the zero mark: none below 0.' }
  const beyond = distances.find((distance) => length !== null && distance > length)
  if (beyond !== undefined) return { distances: `${beyond} m is beyond the end of the tape (${length} m).` }
  const twice = distances.find((distance, index) => distances[index + 1] === distance)
  return twice === undefined ? {} : { distances: `${twice} m is there twice.` }
}

function zoneFaults(form: SetUpForm, length: number | null): SetUpFaults {
  const faults: SetUpFaults = {}
  form.zones.forEach(({ name, from, to }, index) => {
    const [start, end] = [readNumber(from), readNumber(to)]
    if (name.trim() === '') faults[`zone ${index}`] = 'Name this zone, such as shade.'
    else if (start === null || end === null || start < 0 || end <= start)
      faults[`zone ${index}`] = 'From a smaller to a larger distance, in metres.'
    else if (length !== null && end > length) faults[`zone ${index}`] = `The tape ends at ${length} m.`
  })
  return faults
}
