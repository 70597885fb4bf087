import { computed, signal } from '@preact/signals'
import type { SurveyFile } from '../hub/contract/survey.ts'
import { hub, surveyKept } from './notebook.ts'
import { place } from './router.ts'

/** The survey last looked at in this tab, so that “Boards” and back returns to it. */
const KEPT_AS = 'survey looked at'
const lookedAt = signal<string | null>(sessionStorage.getItem(KEPT_AS))

export const currentSurveyId = computed<string | null>(() => {
  const here = place.value
  if ('survey' in here) return here.survey
  const known = hub.value?.surveys ?? []
  if (known.some(({ id }) => id === lookedAt.value)) return lookedAt.value
  return known.length === 1 ? (known[0]?.id ?? null) : null
})

export const currentSurvey = computed<SurveyFile | null>(() => {
  const id = currentSurveyId.value
  if (id === null) return null
  const kept = surveyKept(id).value
  return kept !== null && typeof kept === 'object' ? kept : null
})

/** Times are shown as they were at the site; undefined is the browser's own zone. */
export const siteZone = computed(() => currentSurvey.value?.site.timeZone)

export function rememberSurvey(id: string): void {
  lookedAt.value = id
  sessionStorage.setItem(KEPT_AS, id)
}
