import type { StudySheet } from '../../../hub/contract/study.ts'

/** The table of species that counts: the newest that is not left out and can be read. */
export function speciesInUse(sheets: readonly StudySheet[]): StudySheet | undefined {
  return sheets.find(({ kind, isRemoved, table }) => kind === 'species' && !isRemoved && table !== null)
}
