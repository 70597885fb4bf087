import { Choice, Field } from '../../parts/field.tsx'
import type { FieldFaults } from './field-reader.ts'
import type { RuleForm, RuleName } from './plan-form.ts'
import { RejectedList } from './rejected-list.tsx'
import { ruleWords } from './rule-words.ts'

type NumberField = Exclude<keyof RuleForm, 'rule' | 'transect' | 'plot' | 'rejected' | 'prefix'>

const fieldsOf: Record<RuleName, readonly [NumberField, string, string?][]> = {
  along: [
    ['firstMetres', 'First at, m'],
    ['everyMetres', 'Then every, m'],
    ['sideMetres', 'Side, m'],
  ],
  belt: [
    ['firstMetres', 'First at, m'],
    ['everyMetres', 'Then every, m'],
    ['sideBySide', 'Side by side'],
    ['sideMetres', 'Side, m'],
  ],
  random: [
    ['count', 'How many'],
    ['sideMetres', 'Side, m'],
  ],
  stratified: [
    ['columns', 'Parts across'],
    ['rows', 'Parts up'],
    ['perPart', 'In each part'],
    ['sideMetres', 'Side, m'],
  ],
  grid: [
    ['firstXMetres', 'First x, m'],
    ['firstYMetres', 'First y, m'],
    ['stepXMetres', 'Every, along x, m'],
    ['stepYMetres', 'Every, along y, m'],
    ['sideMetres', 'Side, m'],
  ],
}

/** One rule: where quadrats are laid, and how. */
export function RuleFields(props: {
  rule: RuleForm
  index: number
  tapes: readonly string[]
  plots: readonly string[]
  faults: FieldFaults
  onRule: (rule: RuleForm) => void
  onLeaveOut: (() => void) | undefined
  freshSeed: () => number
}) {
  const { rule, index, tapes, plots, faults, onRule, onLeaveOut } = props
  const { ground, about } = ruleWords[rule.rule]
  const path = `plan[${index}]`
  const line = (name: NumberField | 'prefix') => ({
    value: rule[name],
    wrong: faults[`${path}.${name}`],
    onValue: (value: string) => onRule({ ...rule, [name]: value }),
  })
  const names = (Object.keys(ruleWords) as RuleName[]).filter(
    (name) => (ruleWords[name].ground === 'tape' ? tapes : plots).length > 0,
  )
  const onGround = ground === 'tape' ? 'transect' : 'plot'
  const grounds = ground === 'tape' ? tapes : plots
  const byChance = rule.rule === 'random' || rule.rule === 'stratified'
  const elsewhere = faults[`${path}.rule`] ?? faults[`${path}.${onGround}`]
  return (
    <section class="plan-part" data-rule={index} aria-label={`Rule ${index + 1}`}>
      <div class="fields">
        <Choice
          label="Quadrats"
          value={rule.rule}
          choices={names.map((name) => ({ value: name, label: ruleWords[name].label }))}
          hint={about}
          onValue={(name) => {
            const next = name as RuleName
            const first =
              ruleWords[next].ground === 'tape' ? { transect: tapes[0] ?? '' } : { plot: plots[0] ?? '' }
            const isSameGround = ruleWords[next].ground === ground
            onRule({ ...rule, rule: next, ...(isSameGround ? {} : first) })
          }}
        />
        {grounds.length > 1 && (
          <Choice
            label={ground === 'tape' ? 'Tape' : 'Plot'}
            value={rule[onGround]}
            choices={grounds.map((id) => ({ value: id, label: id }))}
            onValue={(id) => onRule({ ...rule, [onGround]: id })}
          />
        )}
        {fieldsOf[rule.rule].map(([name, label]) => (
          <Field key={name} label={label} kind="number" {...line(name)} width="8rem" />
        ))}
      </div>
      {elsewhere !== undefined && <p class="field-wrong">{elsewhere}</p>}
      {byChance && (
        <p class="plan-seed">
          <Field
            label="Seed"
            kind="number"
            {...line('seed')}
            width="9rem"
            hint="The same seed draws the same places, always."
            after={
              <button
                type="button"
                class="plain take"
                onClick={() => onRule({ ...rule, seed: String(props.freshSeed()), rejected: [] })}
              >
                Draw others
              </button>
            }
          />
        </p>
      )}
      <RejectedList rejected={rule.rejected} onRejected={(rejected) => onRule({ ...rule, rejected })} />
      <details class="plan-more" {...(faults[`${path}.prefix`] === undefined ? {} : { open: true })}>
        <summary>Labels, last one, grid</summary>
        <div class="fields">
          <Field label="Labels begin with" {...line('prefix')} width="8rem" hint="Q makes Q1, Q2 …" />
          {ground === 'tape' && (
            <Field
              label="None past, m"
              kind="number"
              {...line('lastMetres')}
              width="8rem"
              hint="empty: to the end"
            />
          )}
          <Field
            label="Grid divisions"
            kind="number"
            {...line('gridDivisions')}
            width="8rem"
            hint="10 a side: 100 squares"
          />
        </div>
      </details>
      {onLeaveOut && (
        <button type="button" class="plain take" onClick={onLeaveOut}>
          Leave out this rule and its quadrats
        </button>
      )}
    </section>
  )
}
