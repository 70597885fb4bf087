import { useEffect, useMemo, useState } from 'preact/hooks'
import type { PlanChanges } from '../../hub/contract/plan-api.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { formOfSurvey } from './form/form-of-survey.ts'
import { KeepBar } from './keep-bar.tsx'
import { planClient } from './plan-client.ts'
import { PlanEditor } from './plan-editor.tsx'
import { PlanTabs } from './plan-tabs.tsx'
import { usePlanDraft } from './use-plan-draft.ts'

/** The plan of a survey: drawn as it is typed, kept only when asked to. */
export function PlanPage({ survey, onRenewed }: { survey: SurveyFile; onRenewed: () => void }) {
  const start = useMemo(
    () => ({ form: formOfSurvey(survey), quadrats: survey.quadrats, walk: survey.walk ?? [] }),
    [],
  )
  const draft = usePlanDraft(start, {
    transects: survey.transects,
    plots: survey.plots ?? [],
    plan: survey.plan ?? [],
  })
  const [isTried, setTried] = useState(false)
  const [changes, setChanges] = useState<PlanChanges | null>(null)
  const wish = draft.keepable === null ? null : JSON.stringify(draft.keepable)
  useEffect(() => {
    if (wish === null) return
    let isStale = false
    // when the hub does not answer, the drawing above says so already
    planClient.preview(survey.id, JSON.parse(wish)).then(
      (preview) => {
        if (!isStale) setChanges(preview)
      },
      () => undefined,
    )
    return () => {
      isStale = true
    }
  }, [wish, survey])
  return (
    <article class="plan-page set-up plain-page" data-plan={survey.id}>
      <PlanTabs survey={survey.id} here="" />
      <h1>Plan of {survey.title}</h1>
      <PlanEditor draft={draft} measured={new Set(changes?.measured ?? [])} isTried={isTried} isNew={false} />
      <KeepBar
        survey={survey}
        draft={draft}
        changes={changes}
        onTried={() => setTried(true)}
        onRenewed={onRenewed}
      />
    </article>
  )
}
