import type { StudyExportQuery } from '../../contract/export-api.ts'
import { isOnTransect } from '../../contract/quadrat-place.ts'
import type { SurveyFile } from '../../contract/survey.ts'

export interface SiteCoordinates {
  decimalLatitude: number
  decimalLongitude: number
  geodeticDatum: 'EPSG:4326'
  coordinateUncertaintyInMeters: number
  dataGeneralizations?: string
}

/** Metres of a degree of latitude, mean of the WGS 84 ellipsoid. */
const METRES_PER_DEGREE = 111_320
const BLUR_DEGREES = 0.01
/** Of a hand-held receiver under trees. Common practice, no source. */
const RECEIVER_METRES = 30

/**
 * Where the site is, as exactly as was asked for; null when it is not known or not to be told. The uncertainty is the
 * radius of a circle that holds every quadrat: rounding, the receiver, and the length of tapes and plots together.
 */
export function siteCoordinates(
  survey: SurveyFile,
  wish: StudyExportQuery['coordinates'],
): SiteCoordinates | null {
  const { latitude, longitude } = survey.site
  if (wish === 'none' || latitude === undefined || longitude === undefined) return null
  const extentMetres = RECEIVER_METRES + extentOf(survey)
  if (wish === 'exact')
    return {
      decimalLatitude: latitude,
      decimalLongitude: longitude,
      geodeticDatum: 'EPSG:4326',
      coordinateUncertaintyInMeters: Math.ceil(extentMetres),
    }
  const halfMetres = (BLUR_DEGREES / 2) * METRES_PER_DEGREE
  const roundingMetres = Math.hypot(halfMetres, halfMetres * Math.cos((latitude * Math.PI) / 180))
  return {
    decimalLatitude: blurred(latitude),
    decimalLongitude: blurred(longitude),
    geodeticDatum: 'EPSG:4326',
    coordinateUncertaintyInMeters: Math.ceil(roundingMetres + extentMetres),
    dataGeneralizations: `Coordinates rounded to ${BLUR_DEGREES} degrees`,
  }
}

function blurred(degrees: number): number {
  return Number((Math.round(degrees / BLUR_DEGREES) * BLUR_DEGREES).toFixed(2))
}

/** How far a quadrat can be from the point that stands for the site. */
function extentOf({ transects, plots, quadrats }: SurveyFile): number {
  const offsets = quadrats.filter(isOnTransect).map(({ offsetMetres }) => Math.abs(offsetMetres ?? 0))
  const lengths = transects.map(({ lengthMetres }) => lengthMetres)
  const diagonals = (plots ?? []).map(({ widthMetres, heightMetres }) =>
    Math.hypot(widthMetres, heightMetres),
  )
  const most = (numbers: readonly number[]) => numbers.reduce((one, other) => Math.max(one, other), 0)
  return most([...lengths, ...diagonals]) + most(offsets)
}
