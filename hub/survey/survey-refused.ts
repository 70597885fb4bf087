import { HubError } from '../errors.ts'
import type { SurveyFault } from './read-survey-file.ts'

/** A survey file that cannot be loaded, with every fault at its place. */
export class SurveyRefused extends HubError {
  readonly faults: readonly SurveyFault[]
  constructor(faults: readonly SurveyFault[]) {
    const list = faults.slice(0, 20).map((fault) => `${fault.path || 'file'}: ${fault.message}`)
    const more = faults.length > 20 ? `; and ${faults.length - 20} more` : ''
    super(
      'E_SURVEY_FILE',
      `${faults.length} ${faults.length === 1 ? 'fault' : 'faults'} in the survey: ${list.join('; ')}${more}.`,
    )
    this.faults = faults
  }
}
