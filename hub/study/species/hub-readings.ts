import type { Refusal } from '../../../calibration/index.ts'
import { type Measured, summariseQuadrats } from './quadrat-means.ts'
import type { QuadratReadings } from './read-readings.ts'
import { readNumber } from './read-value.ts'
import { refuseSheet } from './sheet-refusal.ts'

/**
 * The hub’s clean readings, one row a reading, to one value for each quadrat and quantity. Columns by their names:
 * quadrat, quantity and value are needed; survey, unit, flag, way, depth_cm and height_m are used when there.
 * @returns a refusal E_READINGS when the rows are not the clean set, or are of several surveys and none is named
 */
export function readHubReadings(
  rows: readonly (readonly string[])[],
  fileName: string,
  survey?: string,
): QuadratReadings | Refusal {
  const headings = rows[0] ?? []
  const reader = (name: string) => {
    const column = headings.indexOf(name)
    return (row: readonly string[]) => (column < 0 ? '' : (row[column] ?? ''))
  }
  const [surveyOf, flagOf, quadratOf, numberOf] = ['survey', 'flag', 'quadrat', 'value'].map(reader)
  const [quantityOf, unitOf, wayOf, depthOf, heightOf] = [
    'quantity',
    'unit',
    'way',
    'depth_cm',
    'height_m',
  ].map(reader)
  const all = rows.slice(1)
  if (headings.includes('reason') || all.some((row) => /^[49]$/.test(flagOf!(row))))
    return refuseSheet(
      'E_READINGS',
      `${fileName} holds readings that failed or were left out. Use “Download clean readings”, or tussock export readings --set clean.`,
    )
  const surveys = [...new Set(all.map(surveyOf!))].filter((id) => id !== '')
  const several = severalSurveys(surveys, survey, fileName)
  if (several) return several
  const measured: Measured[] = []
  const quadrats = new Set<string>()
  const left = { otherSurvey: 0, noQuadrat: 0, noValue: 0 }
  for (const row of all) {
    const quadrat = quadratOf!(row).replace(/^'(?=[=+\-@])/, '')
    const value = readNumber(numberOf!(row))
    if (survey !== undefined && surveyOf!(row) !== survey) left.otherSurvey++
    else if (quadrat === '') left.noQuadrat++
    else if (value === null) left.noValue++
    else {
      quadrats.add(quadrat)
      const method = methodText(wayOf!(row), depthOf!(row), heightOf!(row))
      measured.push({ quadrat, quantity: quantityOf!(row), method, unit: unitOf!(row), value })
    }
  }
  if (measured.length === 0)
    return refuseSheet(
      'E_READINGS',
      `No reading in ${fileName} has both a quadrat and a value. Download the clean readings again.`,
    )
  return {
    quadrats: [...quadrats],
    values: summariseQuadrats(measured),
    notes: [
      `${fileName} was read as clean readings of the hub: ${all.length} rows, ${measured.length} used, ${left.noQuadrat} without a quadrat, ${left.noValue} without a value, ${left.otherSurvey} of another survey.`,
    ],
  }
}

function severalSurveys(
  surveys: readonly string[],
  survey: string | undefined,
  fileName: string,
): Refusal | null {
  const isClear = survey === undefined ? surveys.length <= 1 : surveys.includes(survey)
  if (isClear) return null
  return refuseSheet(
    'E_READINGS',
    `${fileName} has readings of ${surveys.length === 1 ? 'the survey' : 'the surveys'} ${surveys.join(', ')}: choose one of them with --survey.`,
  )
}

function methodText(way: string, depthCentimetres: string, heightMetres: string): string {
  return [way, depthCentimetres && `${depthCentimetres} cm deep`, heightMetres && `${heightMetres} m high`]
    .filter((part) => part !== '')
    .join(', ')
}
