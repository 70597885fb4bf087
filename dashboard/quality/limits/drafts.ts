import { type Signal, signal } from '@preact/signals'
import type { Draft } from './settings.ts'

const drafts = new Map<string, Signal<Draft>>()

/** What is changed and not saved yet, of each survey: it outlasts a look at another page. */
export function draftOf(survey: string): Signal<Draft> {
  let draft = drafts.get(survey)
  if (!draft) {
    draft = signal<Draft>({})
    drafts.set(survey, draft)
  }
  return draft
}
