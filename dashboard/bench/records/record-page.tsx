import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { Calibration, Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'
import { oneMethodText } from '../../parts/method-text.ts'
import { useWidth } from '../../parts/use-width.ts'
import { quantityWords } from '../../quantities.ts'
import { BudgetTable } from '../fit/budget-panel.tsx'
import { budgetAt } from '../fit/budget-words.ts'
import { CurvePlot } from '../fit/curve-plot.tsx'
import { FactList } from '../fit/fact-list.tsx'
import { signalStretch } from '../fit/plot-geometry.ts'
import { VerdictMark } from '../fit/verdict-mark.tsx'
import { signalWithUnit } from '../hold/signal-digits.ts'
import { benchPath } from '../places.ts'
import { criteriaWords } from './criteria.ts'
import { inForceAt, verdictOf } from './in-force.ts'
import { recordPoints, recordSignalUnit } from './record-points.ts'
import { RecordTable } from './record-table.tsx'
import { SettingsLine } from './settings-line.tsx'
import { sourcesOf } from './sources.ts'

/** One calibration on one sheet of paper: enough to do it again, and to judge it without this program. */
export function RecordPage(props: { survey: SurveyFile; probe: Probe; calibration: Calibration }) {
  const { survey, probe, calibration } = props
  const { recipe } = calibration
  const [frame, width] = useWidth<HTMLDivElement>()
  const fit = fitCalibration(recipe)
  const fitted = isRefusal(fit) ? null : fit
  const points = recordPoints(recipe)
  const unit = recordSignalUnit(recipe, fitted)
  const stretch = fitted ? signalStretch(fitted, points, null) : null
  const middle = stretch ? (stretch[0] + stretch[1]) / 2 : 0
  const budget = fitted ? budgetAt(fitted, middle, null) : null
  const isInForce = inForceAt(survey, probe.id, hubMs.value)?.id === calibration.id
  const zone = siteZone.value
  return (
    <article class="record" data-record={calibration.id}>
      <p class="bench-ways not-print">
        <a class="lesser" href={benchPath.probe(survey.id, probe.id, 'records')}>
          <span aria-hidden="true">←&nbsp;</span>Records of {probe.id}
        </a>
        <button type="button" onClick={() => print()}>
          Print this record
        </button>
      </p>
      <header class="record-title">
        <h1>Calibration record</h1>
        <VerdictMark verdict={verdictOf(calibration)} isLarge />
      </header>
      {hub.value?.isRehearsal && (
        <p class="record-rehearsal">Rehearsal: a simulated class, nothing was measured.</p>
      )}
      <dl class="record-who">
        <Item label="Probe" text={`${probe.id}, serial ${probe.serialNumber ?? 'none given'}`} />
        <Item label="Board" text={`${probe.board}, channel ${probe.channel}`} />
        <Item
          label="Quantity"
          text={[quantityWords(probe.quantity).label, oneMethodText(probe.method)].filter(Boolean).join(', ')}
        />
        <Item label="Survey" text={`${survey.title}, ${survey.site.name}`} />
        <Item label="Record" text={calibration.id} />
        <Item
          label="Valid from"
          text={`${momentText(Date.parse(calibration.validFrom), zone)}${isInForce ? ', in force now' : ''}`}
        />
        <Item label="By" text={calibration.by ?? 'not said'} />
        <Item label="Software" text={`Tussock ${hub.value?.version ?? ''}`} />
        {calibration.note && <Item label="Note" text={calibration.note} />}
        {calibration.withdrawn && (
          <Item
            label="Withdrawn"
            text={`${calibration.withdrawn.reason} (${momentText(Date.parse(calibration.withdrawn.at), zone)})`}
          />
        )}
      </dl>
      {isRefusal(fit) && <p class="bench-warning">{fit.message}</p>}
      {points.length > 0 && <RecordTable fitted={fitted} points={points} signalUnit={unit} />}
      <SettingsLine recipe={recipe} />
      {fitted && (
        <div class="record-halves">
          <div ref={frame}>
            <h2>Curve</h2>
            {width > 0 && (
              <CurvePlot fitted={fitted} points={points} signalUnit={unit} width={Math.min(width, 620)} />
            )}
          </div>
          <div>
            <h2>Findings</h2>
            <FactList facts={fitted.facts} />
            {fitted.advice.length > 0 && (
              <ul class="advice">
                {fitted.advice.map(({ code, text }) => (
                  <li key={code}>{text}</li>
                ))}
              </ul>
            )}
            <h2>Uncertainty at {signalWithUnit(middle, unit)}</h2>
            {budget ? (
              <BudgetTable budget={budget} unit={fitted.unit} />
            ) : (
              <p>It cannot be known from these points.</p>
            )}
          </div>
        </div>
      )}
      <footer class="record-foot">
        <p>
          <b>Limits used:</b> {criteriaWords(recipe).join('; ')}.
        </p>
        <p>
          <b>Sources:</b> {sourcesOf(recipe).join('; ')}.
        </p>
      </footer>
    </article>
  )
}

function Item({ label, text }: { label: string; text: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{text}</dd>
    </div>
  )
}
