import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { readingsCsvAddress } from '../../client.ts'
import { Choice } from '../../parts/field.tsx'
import { type Coordinates, coordinateChoices } from '../report/report-address.ts'
import { StudyHead } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { WishNote } from '../wish-note.tsx'
import { exportAddress, licences, studyExports } from './export-list.ts'
import { SaveButton } from './save-button.tsx'
import { ShareCheck } from './share-check.tsx'

/** Every file that can be taken away, with what it is for and what was removed from it. */
export function DownloadPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const { window, hydrogenIons } = studyWish(id).value
  const [coordinates, setCoordinates] = useState<Coordinates>('blurred')
  const [licence, setLicence] = useState('')
  const wish = { coordinates, licence, window, hydrogenIons }
  return (
    <article class="study-page">
      <StudyHead survey={id} title="Files to take away">
        <p>
          No names of people are in them, only group labels. Coordinates are rounded to about a kilometre
          unless you say otherwise. Nothing leaves the hub by itself.
        </p>
        <WishNote survey={id} />
      </StudyHead>
      <div class="fields">
        <Choice
          label="Coordinates of the site"
          value={coordinates}
          onValue={(value) => setCoordinates(value as Coordinates)}
          choices={coordinateChoices}
        />
        <Choice label="Licence" value={licence} onValue={setLicence} choices={licences} />
      </div>
      <ul class="study-exports">
        {studyExports.map(({ name, title, ending, text }) => (
          <li key={name} data-export={name}>
            <div>
              <h2>
                {title} <small>.{ending}</small>
              </h2>
              <p>{text}</p>
            </div>
            <SaveButton
              address={exportAddress(id, name, wish)}
              fileName={`${id}-${name}.${ending}`}
              label="Save"
            />
          </li>
        ))}
        <li data-export="readings">
          <div>
            <h2>
              Readings <small>.csv</small>
            </h2>
            <p>
              Every single clean reading, and those left out with their reasons. Any spreadsheet opens them.
            </p>
          </div>
          <span class="save-button">
            <a class="button" href={readingsCsvAddress(id, 'clean')} download>
              Clean
            </a>
            <a class="button plain" href={readingsCsvAddress(id, 'excluded')} download>
              Left out
            </a>
          </span>
        </li>
      </ul>
      <ShareCheck />
    </article>
  )
}
