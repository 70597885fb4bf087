import { Field } from '../../parts/field.tsx'
import { type GroupForm, nextName } from '../form/plan-form.ts'
import type { PlanDraft } from '../use-plan-draft.ts'
import { walkedText } from './metres-walked.ts'

/** Groups of the class, by label only, and which quadrats each one takes. */
export function GroupShares({ draft }: { draft: PlanDraft }) {
  const { form, faults, drawn } = draft
  const { groups } = form
  const setGroups = (next: GroupForm[]) => draft.change({ form: { ...form, groups: next } })
  const shares = drawn?.shares ?? []
  const hasShares = shares.length === groups.length && shares.length > 0
  return (
    <details class="plan-fold" {...(groups.length > 0 ? { open: true } : {})}>
      <summary>
        <h2>Groups</h2>
      </summary>
      <p>Labels such as G1, no names. Share the quadrats so that no group is confined to one end.</p>
      <ul class="plan-groups">
        {groups.map((group, index) => (
          <li key={index} data-group={group.label}>
            <Field
              label="Group"
              value={group.label}
              width="6rem"
              wrong={faults[`groups[${index}].label`]}
              onValue={(label) =>
                setGroups(groups.map((other, at) => (at === index ? { ...other, label } : other)))
              }
            />
            <span>
              {group.quadrats.length === 0 ? 'no quadrats yet' : group.quadrats.join(', ')}
              {hasShares && group.quadrats.join() === shares[index]?.walk.labels.join() && (
                <small> · {walkedText(shares[index].walk.metres)} to walk</small>
              )}
            </span>
            <button
              type="button"
              class="plain take"
              onClick={() => setGroups(groups.filter((_, at) => at !== index))}
            >
              Leave out {group.label}
            </button>
          </li>
        ))}
      </ul>
      <p class="form-ways">
        <button
          type="button"
          class="plain"
          onClick={() =>
            setGroups([
              ...groups,
              {
                label: nextName(
                  'G',
                  groups.map(({ label }) => label),
                ),
                quadrats: [],
              },
            ])
          }
        >
          Add a group
        </button>
        {hasShares && (
          <button
            type="button"
            class="plain"
            id="share-quadrats"
            onClick={() =>
              setGroups(
                groups.map((group, index) => ({ ...group, quadrats: shares[index]?.walk.labels ?? [] })),
              )
            }
          >
            Share the quadrats among them
          </button>
        )}
      </p>
    </details>
  )
}
