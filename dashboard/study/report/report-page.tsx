import { useEffect, useId, useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { recall, remember } from '../../bench/remembered.ts'
import { Choice } from '../../parts/field.tsx'
import { SaveButton } from '../download/save-button.tsx'
import { NextStep } from '../steps/next-step.tsx'
import { StudyHead } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { WishSwitches } from '../summary/wish-switches.tsx'
import { type Coordinates, coordinateChoices, reportAddress } from './report-address.ts'
import { ReportPreview } from './report-preview.tsx'

/** Typing is over when nothing was typed for so long: then the preview is made anew. */
const REST_MS = 800

/** The report: what goes in is chosen here; the hub writes the method, the class its conclusion. */
export function ReportPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const aimId = useId()
  const { window, hydrogenIons, predictFirst } = studyWish(id).value
  const [aim, setAim] = useState(() => recall(`study aim ${id}`, ''))
  const [aimAtRest, setAimAtRest] = useState(aim)
  const [hasVerdicts, setVerdicts] = useState(!predictFirst)
  const [hasCheckPage, setCheckPage] = useState(false)
  const [coordinates, setCoordinates] = useState<Coordinates>('blurred')
  useEffect(() => {
    remember(`study aim ${id}`, aim)
    const timer = setTimeout(() => setAimAtRest(aim), REST_MS)
    return () => clearTimeout(timer)
  }, [id, aim])
  const wish = { aim, hasVerdicts, coordinates, window, hydrogenIons, hasCheckPage }
  return (
    <article class="study-page">
      <StudyHead survey={id} title="The report">
        <p>
          Aim, site, methods from the record (probes, calibrations, uncertainty, quality rules), results, what
          was left out, and the calibration records. The conclusion is yours to write.
        </p>
      </StudyHead>
      <section class="study-block">
        <h2>What goes in</h2>
        <label class="aim-label" for={aimId}>
          Aim: the question you went out with
        </label>
        <textarea
          id={aimId}
          class="aim-text"
          rows={3}
          maxLength={600}
          value={aim}
          placeholder="Does bramble cover follow soil moisture from the shade to the open?"
          onInput={(event) => setAim(event.currentTarget.value)}
        />
        <label class="one-switch">
          <input
            type="checkbox"
            checked={hasVerdicts}
            onChange={(event) => setVerdicts(event.currentTarget.checked)}
          />
          <span>
            Print the results of the tests{' '}
            <small>without them the report is for a class that predicts first</small>
          </span>
        </label>
        <label class="one-switch">
          <input
            type="checkbox"
            checked={hasCheckPage}
            onChange={(event) => setCheckPage(event.currentTarget.checked)}
          />
          <span>
            A last page with every text that people typed <small>to be read before you share it</small>
          </span>
        </label>
        <div class="fields">
          <Choice
            label="Coordinates of the site"
            value={coordinates}
            onValue={(value) => setCoordinates(value as Coordinates)}
            choices={coordinateChoices}
          />
        </div>
        <WishSwitches survey={id} />
      </section>
      <section class="study-block">
        <h2>Take it</h2>
        <p class="form-ways">
          <SaveButton
            address={reportAddress(id, 'pdf', wish)}
            fileName={`report-${id}.pdf`}
            label="Save as PDF"
          />
          <SaveButton
            address={reportAddress(id, 'html', wish)}
            fileName={`report-${id}.html`}
            label="Save as a page (HTML)"
            isPlain
          />
          <a class="button plain" href={reportAddress(id, 'html', wish)} target="_blank" rel="noreferrer">
            Open in a window of its own
          </a>
        </p>
      </section>
      <section class="study-block">
        <h2>How it looks</h2>
        <ReportPreview survey={id} address={reportAddress(id, 'html', { ...wish, aim: aimAtRest })} />
      </section>
      <NextStep survey={id} after="report" />
    </article>
  )
}
