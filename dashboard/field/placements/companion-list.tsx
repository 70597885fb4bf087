import { dayText, minuteText } from '../../format-time.ts'
import { LateMark } from '../../parts/marks.tsx'
import { quantityWords } from '../../quantities.ts'
import type { Companions } from './companions.ts'

/** Two probes of one quantity at one quadrat: meant so, or one of them written at the wrong place. */
export function CompanionList({ all, zone }: { all: readonly Companions[]; zone: string | undefined }) {
  if (all.length === 0) return null
  const at = (ms: number) => `${dayText(ms, zone)}, ${minuteText(ms, zone)}`
  return (
    <section class="field-block" data-companions={all.length}>
      <h2>Two of a kind at one quadrat</h2>
      <ul class="field-list">
        {all.map(({ quadrat, quantity, probes, fromMs, toMs, isSameMethod }) => (
          <li key={`${quadrat} ${probes.join(' ')} ${fromMs}`}>
            <span class="tag-suspect">
              <LateMark />
            </span>
            <span class="field-text">
              <b>
                {probes.join(' and ')} at {quadrat}
              </b>
              <small>
                both {quantityWords(quantity).label}, {at(fromMs)}{' '}
                {toMs === null ? 'until now' : `to ${at(toMs)}`}
                {isSameMethod
                  ? '; by the same method, so their readings count together'
                  : '; by unlike methods, so they are kept apart'}
              </small>
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
