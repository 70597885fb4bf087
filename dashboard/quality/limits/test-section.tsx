import type { QualityTestListed } from '../../../hub/contract/quality.ts'
import type { QualitySettings } from '../../../hub/contract/survey.ts'
import type { QuantityWords } from '../../quantities.ts'
import type { LimitFault } from './fault-places.ts'
import { QuantityLimits } from './quantity-limits.tsx'
import { type Draft, draftKey, type Setting, savedSetting, schemaOf } from './settings.ts'
import { writtenOf } from './written.ts'

/** One test in words, and its limits quantity by quantity. */
export function TestSection(props: {
  test: QualityTestListed
  quantities: readonly QuantityWords[]
  quality: QualitySettings | undefined
  unitOf: (quantity: string) => string
  draft: Draft
  /** quantities whose settings are changed and not saved yet */
  changed: readonly string[]
  faults: readonly LimitFault[]
  onDraft: (key: string, setting: Setting | null) => void
}) {
  const { test, quality, unitOf, draft } = props
  const settingOf = (quantity: string) =>
    draft[draftKey(test.name, quantity)] ?? savedSetting(test, quantity, unitOf(quantity), quality)
  const isIdle = ({ name }: QuantityWords) =>
    test.defaults[name] === undefined && settingOf(name).kind !== 'own' && !props.changed.includes(name)
  const idle = props.quantities.filter(isIdle)
  return (
    <section class="quality-test" id={test.name} tabIndex={-1} data-test={test.name}>
      <div class="test-words">
        <h2>{test.title}</h2>
        <p>{test.explain}</p>
        <p class="test-source">
          <code>{test.name}</code> · from: {test.source}
        </p>
      </div>
      <div class="test-limits">
        {props.quantities
          .filter((each) => !isIdle(each))
          .map((quantity) => (
            <QuantityLimits
              key={quantity.name}
              test={test}
              quantity={quantity}
              unit={unitOf(quantity.name)}
              setting={settingOf(quantity.name)}
              isChanged={props.changed.includes(quantity.name)}
              faults={props.faults.filter((fault) => fault.quantity === quantity.name)}
              onSetting={(setting) => props.onDraft(draftKey(test.name, quantity.name), setting)}
            />
          ))}
        {idle.length > 0 && (
          <details class="idle-quantities">
            <summary>
              {idle.length === props.quantities.length
                ? 'Off until limits are given'
                : `Off for ${idle.map(({ label }) => label).join(', ')}`}
            </summary>
            {idle.map(({ name, label }) => (
              <button
                key={name}
                type="button"
                class="plain small"
                data-switch-on={name}
                onClick={() =>
                  props.onDraft(draftKey(test.name, name), {
                    kind: 'own',
                    typed: writtenOf(schemaOf(test), undefined, unitOf(name)),
                  })
                }
              >
                {label}: give limits
              </button>
            ))}
          </details>
        )}
      </div>
    </section>
  )
}
