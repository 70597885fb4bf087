import type { Fitted } from '../../../calibration/index.ts'
import { factLines } from './fact-lines.ts'

/** What the curve says about the probe, one fact to a line. */
export function FactList({ facts }: { facts: Fitted['facts'] }) {
  return (
    <dl class="bench-facts">
      {factLines(facts).map(({ name, label, digits, unit, number, words }) => (
        <div key={name}>
          <dt>{label}</dt>
          <dd>
            {digits === null ? (
              <span data-fact={name}>{words}</span>
            ) : (
              <>
                <b class="figures" data-fact={name} {...(number === null ? {} : { 'data-number': number })}>
                  {digits}
                </b>
                {unit !== '' && ` ${unit}`}
                {words !== '' && <small>; {words}</small>}
              </>
            )}
          </dd>
        </div>
      ))}
    </dl>
  )
}
