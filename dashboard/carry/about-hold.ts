import type { SurveyFile } from '../../hub/contract/survey.ts'
import type { Capture } from './capture.ts'
import type { Meter } from './meters.ts'
import type { Progress } from './progress.ts'

/** What a page needs that takes replicates at one quadrat. */
export interface AboutHold {
  survey: SurveyFile
  label: string
  meter: Meter
  /** how often it is put in */
  replicates: number
  group: string | null
  /** what is there of this meter’s quantities already */
  already: readonly Progress[]
  onFinished: (captures: readonly Capture[]) => void
}
