import { useCallback, useEffect, useRef, useState } from 'preact/hooks'
import type { KeepPlan, PlanDrawn, PlanWish } from '../../hub/contract/plan-api.ts'
import type { Quadrat } from '../../hub/contract/survey.ts'
import { messageOf } from '../client.ts'
import { connection } from '../live.ts'
import type { FieldFaults } from './form/field-reader.ts'
import type { PlanForm } from './form/plan-form.ts'
import { readPlanForm } from './form/read-plan-form.ts'
import { planClient } from './plan-client.ts'

/** A plan while it is worked on. */
export interface Draft {
  form: PlanForm
  quadrats: Quadrat[]
  /** empty: in the order of the list */
  walk: string[]
}

export interface PlanDraft extends Draft {
  change(part: Partial<Draft>): void
  /** has it drawn once more, after the hub did not answer */
  again(): void
  /** goes up with each change made here */
  version: number
  /** the hub’s last answer that had no faults, for the drawing */
  drawn: PlanDrawn | null
  /** by place, from the form and from the hub */
  faults: FieldFaults
  /** what is on the page is not drawn yet */
  isBusy: boolean
  /** the hub did not answer */
  trouble: string
  /** null as long as something is wrong or not drawn */
  keepable: KeepPlan | null
}

const PAUSE_MS = 150

/** Keeps what is typed, and has the hub lay the quadrats again after each change; nothing is saved. */
export function usePlanDraft(start: Draft, laidAtStart: PlanWish['before']): PlanDraft {
  const [draft, setDraft] = useState(start)
  const [version, setVersion] = useState(0)
  const [drawnVersion, setDrawnVersion] = useState(-1)
  const [drawn, setDrawn] = useState<PlanDrawn | null>(null)
  const [refused, setRefused] = useState<FieldFaults>({})
  const [trouble, setTrouble] = useState('')
  const [attempt, setAttempt] = useState(0)
  const laid = useRef(laidAtStart)
  const { parts, faults } = readPlanForm(draft.form)

  useEffect(() => {
    if (Object.keys(faults).some(isAboutGround)) return
    let isStale = false
    const ask = async () => {
      const after = { transects: parts.transects, plots: parts.plots ?? [], plan: parts.plan ?? [] }
      const groups = draft.form.groups.map(({ label }) => label.trim()).filter((label) => label !== '')
      const { quadrats, walk } = draft
      try {
        const answer = await planClient.draw({ before: laid.current, after, quadrats, walk, groups })
        if (isStale) return
        if (answer.faults.length === 0) {
          laid.current = after
          setDraft((now) => ({ ...now, quadrats: answer.quadrats }))
          setDrawn(answer)
        }
        setRefused(Object.fromEntries(answer.faults.map(({ path, message }) => [path, message])))
        setDrawnVersion(version)
        setTrouble('')
      } catch (error) {
        if (!isStale) setTrouble(messageOf(error))
      }
    }
    const timer = setTimeout(() => void ask(), version === 0 ? 0 : PAUSE_MS)
    return () => {
      isStale = true
      clearTimeout(timer)
    }
  }, [version, attempt])

  const again = useCallback(() => setAttempt((now) => now + 1), [])
  useEffect(() => {
    if (trouble !== '' && connection.value === 'live') again()
  }, [connection.value])

  const change = useCallback((part: Partial<Draft>) => {
    setDraft((now) => ({ ...now, ...part }))
    setVersion((now) => now + 1)
  }, [])
  const isDrawn = drawnVersion === version
  const all = { ...(isDrawn ? refused : {}), ...faults }
  const isFine = isDrawn && drawn !== null && Object.keys(all).length === 0
  return {
    ...draft,
    change,
    again,
    version,
    drawn,
    faults: all,
    isBusy: !isDrawn && trouble === '' && !Object.keys(faults).some(isAboutGround),
    trouble,
    keepable: isFine ? planToKeep(parts, draft, drawn) : null,
  }
}

function isAboutGround(path: string): boolean {
  return /^(transects|plots|plan)\[/.test(path)
}

/** Labels that are gone are left out of the walk, the groups and what is wanted. */
function planToKeep(
  parts: ReturnType<typeof readPlanForm>['parts'],
  { quadrats, walk }: Draft,
  drawn: PlanDrawn,
): KeepPlan {
  const labels = new Set(quadrats.map(({ label }) => label))
  const known = (list: readonly string[]) => list.filter((label) => labels.has(label))
  return {
    ...parts,
    quadrats,
    walk: walk.length === 0 ? [] : drawn.walk.planned.labels,
    groups: (parts.groups ?? []).map((group) => ({ ...group, quadrats: known(group.quadrats) })),
    wanted: (parts.wanted ?? []).map((wanted) =>
      wanted.quadrats === undefined ? wanted : { ...wanted, quadrats: known(wanted.quadrats) },
    ),
  }
}
