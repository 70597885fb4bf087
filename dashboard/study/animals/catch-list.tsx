import type { ExposedCatch } from '../../../hub/contract/study.ts'
import { siteZone } from '../../current-survey.ts'
import { countText, numberText, valueText } from '../../format.ts'
import { momentText } from '../../format-time.ts'
import { quantityWords } from '../../quantities.ts'

/** Each catch with its effort, and what the probes of its quadrat read while the trap stood. */
export function CatchList({ catches }: { catches: readonly ExposedCatch[] }) {
  return (
    <ul class="catches">
      {catches.map((each, place) => (
        <li key={place} data-catch={each.record.station}>
          <h3>
            {each.record.taxon === null ? 'nothing' : `${each.record.count} × ${each.record.taxon}`}{' '}
            <small>
              at {each.record.station}, {each.record.method}
            </small>
          </h3>
          <p>{effortText(each)}</p>
          {each.factors.length > 0 && (
            <dl class="pair-numbers">
              {each.factors.map(({ quantity, method, unit, n, mean, low, high }) => (
                <div key={`${quantity} ${method}`}>
                  <dt>
                    {quantityWords(quantity).label}
                    {method !== '' && <small> {method}</small>}
                  </dt>
                  <dd>
                    {valueText(quantity, unit, mean, null)}
                    <small>
                      {valueText(quantity, unit, low, null)} to {valueText(quantity, unit, high, null)},{' '}
                      {countText(n, 'reading')}
                    </small>
                  </dd>
                </div>
              ))}
            </dl>
          )}
          {each.factors.length === 0 && <p class="study-open">{whyNoFactors(each)}</p>}
        </li>
      ))}
    </ul>
  )
}

function effortText({ record, fromMs, toMs, hours, perTrap, perTrapHour }: ExposedCatch): string {
  const { traps, sweeps } = record.effort
  return [
    fromMs !== null && toMs !== null
      ? `${momentText(fromMs, siteZone.value)} to ${momentText(toMs, siteZone.value)}`
      : '',
    hours === null ? '' : `${numberText(hours, 1)} h`,
    traps === undefined ? '' : `${countText(traps, 'trap')}, ${numberText(perTrap, 2)} a trap`,
    perTrapHour === null ? '' : `${numberText(perTrapHour, 3)} a trap and hour`,
    sweeps === undefined
      ? ''
      : `${countText(sweeps, 'sweep')}, ${numberText(record.count / sweeps, 2)} a sweep`,
  ]
    .filter((part) => part !== '')
    .join(' · ')
}

/** Why no readings stand beside a catch, and what to do about it. */
function whyNoFactors({ whyNone, quadrat, record }: ExposedCatch): string {
  if (whyNone === null) return `No probe at ${quadrat} has clean readings of that time.`
  if (quadrat === null)
    return `${whyNone} Write the name of the trap, or the label of its quadrat, and give the sheet again.`
  if (record.effort.sweeps !== undefined)
    return `${whyNone} For a sweep net write when it began and when it ended, if you want the readings of that time.`
  return `${whyNone} Write both times in the columns “set” and “checked”.`
}
