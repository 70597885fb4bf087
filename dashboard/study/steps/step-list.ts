/** The way from readings to the write-up, in its order; `rest` is the page's own part of the address. */
export const studySteps = [
  { rest: 'summary', name: 'Readings', title: 'Each quadrat in numbers' },
  { rest: 'species', name: 'Species', title: 'The table of species' },
  { rest: 'join', name: 'Join', title: 'Readings beside species' },
  { rest: 'look', name: 'Look', title: 'Pictures' },
  { rest: 'test', name: 'Test', title: 'Do the plants follow the factors?' },
  { rest: 'report', name: 'Write', title: 'The report' },
  { rest: 'download', name: 'Hand over', title: 'Files to take away' },
] as const

export type StudyStep = (typeof studySteps)[number]['rest']

/** The step after one; null after the last. */
export function stepAfter(rest: StudyStep): (typeof studySteps)[number] | null {
  return studySteps[studySteps.findIndex((step) => step.rest === rest) + 1] ?? null
}
