import { useState } from 'preact/hooks'
import { GroundDrawing } from './drawing/ground-drawing.tsx'
import { readGround } from './drawing/read-ground.ts'
import { freeRule } from './form/free-rule.ts'
import { PlaceFields } from './form/place-fields.tsx'
import { freshPlot, freshRule, freshTape, nextName, type PlanForm } from './form/plan-form.ts'
import { PlotFields } from './form/plot-fields.tsx'
import { RuleFields } from './form/rule-fields.tsx'
import { TapeFields } from './form/tape-fields.tsx'
import { WantedFields } from './form/wanted-fields.tsx'
import { freshSeed } from './fresh-seed.ts'
import { QuadratLines } from './list/quadrat-lines.tsx'
import { PlanStatus } from './plan-status.tsx'
import type { PlanDraft } from './use-plan-draft.ts'
import { GroupShares } from './walk/group-shares.tsx'
import { WalkAdvice } from './walk/walk-advice.tsx'

/** All that is planned, with the drawing above it; nothing is saved here. */
export function PlanEditor(props: {
  draft: PlanDraft
  measured: ReadonlySet<string>
  /** faults are shown even in fields that were not filled in yet */
  isTried: boolean
  isNew: boolean
}) {
  const { draft, isTried } = props
  const [chosen, setChosen] = useState<string | null>(null)
  const { form } = draft
  const onForm = (part: Partial<PlanForm>) => draft.change({ form: { ...form, ...part } })
  const faults = isTried ? draft.faults : withoutEmptyNames(draft.faults)
  const tapes = form.transects.map(({ id }) => id)
  const plots = form.plots.map(({ id }) => id)
  const hasMoreGround = tapes.length + plots.length > 1
  const newPrefix = () =>
    ['Q', 'R', 'S', 'U', 'V', 'W'].find((letter) => form.plan.every(({ prefix }) => prefix !== letter)) ?? 'X'
  const addGround = (
    part: Partial<PlanForm>,
    rule: 'along' | 'random',
    on: { transect?: string; plot?: string },
  ) =>
    onForm({
      ...part,
      plan: [...form.plan, { ...freshRule(rule, freshSeed()), ...on, prefix: newPrefix() }],
    })
  return (
    <>
      <GroundDrawing draft={draft} chosen={chosen} />
      <PlanStatus draft={draft} faults={faults} />
      <PlaceFields form={form} faults={faults} onForm={onForm} />
      <fieldset>
        <legend>Tapes and plots</legend>
        {form.transects.map((tape, index) => (
          <TapeFields
            key={tape.id}
            tape={tape}
            index={index}
            faults={faults}
            onTape={(next) =>
              onForm({ transects: form.transects.map((each, at) => (at === index ? next : each)) })
            }
            onLeaveOut={
              hasMoreGround ? () => draft.change(withoutGround(draft, 'transect', tape.id)) : undefined
            }
          />
        ))}
        {form.plots.map((plot, index) => (
          <PlotFields
            key={plot.id}
            plot={plot}
            index={index}
            faults={faults}
            onPlot={(next) => onForm({ plots: form.plots.map((each, at) => (at === index ? next : each)) })}
            onLeaveOut={hasMoreGround ? () => draft.change(withoutGround(draft, 'plot', plot.id)) : undefined}
          />
        ))}
        <p class="form-ways">
          <button
            type="button"
            class="plain"
            onClick={() => {
              const id = nextName('T', tapes)
              addGround({ transects: [...form.transects, freshTape(id)] }, 'along', { transect: id })
            }}
          >
            Add a tape
          </button>
          <button
            type="button"
            class="plain"
            onClick={() => {
              const id = nextName('P', plots)
              addGround({ plots: [...form.plots, freshPlot(id)] }, 'random', { plot: id })
            }}
          >
            Add a plot
          </button>
        </p>
      </fieldset>
      <fieldset>
        <legend>Quadrats by rule</legend>
        {form.plan.length === 0 && <p>No rule: these quadrats were laid by hand, one by one.</p>}
        {form.plan.map((rule, index) => (
          <RuleFields
            key={index}
            rule={rule}
            index={index}
            tapes={tapes}
            plots={plots}
            faults={faults}
            freshSeed={freshSeed}
            onRule={(next) => onForm({ plan: form.plan.map((each, at) => (at === index ? next : each)) })}
            onLeaveOut={
              form.plan.length > 1 || draft.quadrats.length > 0
                ? () => onForm({ plan: form.plan.filter((_, at) => at !== index) })
                : undefined
            }
          />
        ))}
        {tapes.length + plots.length > 0 && (
          <p class="form-ways">
            <button
              type="button"
              class="plain"
              onClick={() =>
                onForm({
                  plan: [
                    ...form.plan,
                    { ...freeRule(readGround(form), draft.quadrats, freshSeed()), prefix: newPrefix() },
                  ],
                })
              }
            >
              Add a rule
            </button>
          </p>
        )}
      </fieldset>
      <QuadratLines
        draft={draft}
        measured={props.measured}
        chosen={chosen}
        onChoose={setChosen}
        isFolded={props.isNew}
      />
      <WalkAdvice draft={draft} />
      <GroupShares draft={draft} />
      <WantedFields wanted={form.wanted} faults={faults} onWanted={(wanted) => onForm({ wanted })} />
    </>
  )
}

/** A title that is still empty is no reproach before saving was tried. */
function withoutEmptyNames(faults: PlanDraft['faults']): PlanDraft['faults'] {
  return Object.fromEntries(
    Object.entries(faults).filter(([path]) => path !== 'title' && path !== 'site.name'),
  )
}

/** A tape or plot goes with its rules and the quadrats in it. */
function withoutGround(draft: PlanDraft, ground: 'transect' | 'plot', id: string) {
  const { form, quadrats } = draft
  const isOnTape = (rule: string) => rule === 'along' || rule === 'belt'
  return {
    quadrats: quadrats.filter((quadrat) => quadrat[ground] !== id),
    form: {
      ...form,
      transects: ground === 'transect' ? form.transects.filter((tape) => tape.id !== id) : form.transects,
      plots: ground === 'plot' ? form.plots.filter((plot) => plot.id !== id) : form.plots,
      plan: form.plan.filter(
        (rule) => isOnTape(rule.rule) !== (ground === 'transect') || rule[ground] !== id,
      ),
    },
  }
}
