import type { SurveyFile } from '../../contract/survey.ts'

/**
 * The surveys that have a say in the values of one: those that know one of its boards or probes, and those that know one
 * of theirs. The survey itself is not among them.
 */
export function relatedSurveys(survey: SurveyFile, all: readonly SurveyFile[]): SurveyFile[] {
  const related = new Set([survey])
  for (let before = 0; before < related.size; ) {
    before = related.size
    const boards = new Set([...related].flatMap(({ probes }) => probes.map(({ board }) => board)))
    const probes = new Set([...related].flatMap((each) => each.probes.map(({ id }) => id)))
    for (const other of all)
      if (other.id !== survey.id && other.probes.some(({ id, board }) => boards.has(board) || probes.has(id)))
        related.add(other)
  }
  related.delete(survey)
  return [...related]
}

/** Every board that a probe of the surveys was ever connected to. */
export function boardsOf(surveys: readonly SurveyFile[]): Set<string> {
  return new Set(surveys.flatMap(({ probes }) => probes.map(({ board }) => board)))
}
