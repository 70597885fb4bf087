import type { StudyStatistics } from '../../../hub/contract/study.ts'
import { NoReadings } from '../no-readings.tsx'
import { NoSpecies } from '../no-species.tsx'

/** Nothing to compare: says which of the two sides is missing. */
export function NoPairs(props: { survey: string; statistics: StudyStatistics; needed: string }) {
  const { survey, statistics, needed } = props
  const hasSpecies = statistics.frequency.length > 0
  return hasSpecies ? <NoReadings survey={survey} /> : <NoSpecies survey={survey} needed={needed} />
}
