import { useState } from 'preact/hooks'
import type { QualityTestListed } from '../../../hub/contract/quality.ts'
import type { QuantityWords } from '../../quantities.ts'
import type { LimitFault } from './fault-places.ts'
import { LimitGroup } from './limit-group.tsx'
import { limitLines } from './limit-lines.ts'
import { defaultTyped, type Setting, schemaOf } from './settings.ts'

/** The limits of one test for one quantity: read them, change them, switch the test off, go back to the defaults. */
export function QuantityLimits(props: {
  test: QualityTestListed
  quantity: QuantityWords
  unit: string
  setting: Setting
  isChanged: boolean
  faults: readonly LimitFault[]
  onSetting: (setting: Setting | null) => void
}) {
  const { test, quantity, unit, setting, isChanged, faults, onSetting } = props
  const known = defaultTyped(test, quantity.name, unit)
  const typed = setting.kind === 'own' ? setting.typed : setting.kind === 'default' ? known : null
  // what is begun blank is open at once
  const [isOpen, setOpen] = useState(known === null && isChanged)
  const isWriting = (isOpen || faults.length > 0) && typed !== null
  const isUsual = setting.kind === 'default'
  const whole = faults.filter(({ path }) => path === '')
  return (
    <div
      class={`quantity-limits is-${typed === null ? 'off' : isUsual ? 'usual' : 'own'}`}
      data-limits={quantity.name}
      data-setting={setting.kind}
    >
      <div class="limits-head">
        <h3>{quantity.label}</h3>
        <span class="limits-state">
          {typed === null ? '○ switched off' : isUsual ? 'default limits' : '✎ this survey’s own limits'}
          {isChanged ? ', not saved yet' : ''}
        </span>
        <p class="limits-ways">
          {typed !== null && (
            <button
              type="button"
              class="plain small"
              data-edit={quantity.name}
              aria-expanded={isWriting}
              disabled={faults.length > 0}
              onClick={() => setOpen(!isOpen)}
            >
              {isWriting ? 'Fold up' : 'Change'}
            </button>
          )}
          {typed !== null && (
            <button
              type="button"
              class="plain small"
              data-switch-off={quantity.name}
              onClick={() => onSetting({ kind: 'off' })}
            >
              Switch off
            </button>
          )}
          {typed === null && known !== null && (
            <button
              type="button"
              class="plain small"
              data-switch-on={quantity.name}
              onClick={() => onSetting({ kind: 'default' })}
            >
              Switch on
            </button>
          )}
          {setting.kind === 'own' && known !== null && (
            <button
              type="button"
              class="plain small"
              data-default={quantity.name}
              onClick={() => onSetting({ kind: 'default' })}
            >
              Back to default
            </button>
          )}
          {isChanged && (
            <button type="button" class="plain small" onClick={() => onSetting(null)}>
              Forget this change
            </button>
          )}
        </p>
      </div>
      {typed !== null && !isWriting && (
        <dl class="limit-lines">
          {limitLines(schemaOf(test), typed, unit).map(({ name, label, text }) => (
            <div key={name}>
              <dt>{label}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      )}
      {typed !== null && isWriting && (
        <LimitGroup
          schema={schemaOf(test)}
          typed={typed}
          unit={unit}
          path=""
          faults={faults}
          onTyped={(next) => onSetting({ kind: 'own', typed: next })}
        />
      )}
      {whole.map(({ message }) => (
        <p key={message} class="field-wrong" role="alert">
          {message}
        </p>
      ))}
    </div>
  )
}
