import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { FieldHead } from '../field-head.tsx'
import { useAnswer } from '../use-answer.ts'
import { LightEntry } from './light-entry.tsx'
import { pairingClient } from './pairing-client.ts'
import { ReferenceChoice } from './reference-choice.tsx'
import { WindTable } from './wind-table.tsx'
import './pairing.css'

/** One probe under the open sky and one on a mast serve all quadrats: what was read there at the same moments. */
export function PairingPage({ survey }: { survey: SurveyFile }) {
  const { answer, trouble } = useAnswer(survey.id, () => pairingClient.pairing(survey.id))
  const zone = siteZone.value
  const order = new Map(survey.quadrats.map(({ label }, index) => [label, index]))
  const inOrder = <T extends { quadrat: string }>(all: readonly T[]) =>
    all.toSorted((one, other) => (order.get(one.quadrat) ?? 0) - (order.get(other.quadrat) ?? 0))
  const hasSky = survey.probes.some(({ reference }) => reference === 'open-sky')
  const hasMast = survey.probes.some(({ reference }) => reference === 'wind-mast')
  return (
    <article class="field-page pairing-page">
      <FieldHead survey={survey.id} title="Open sky and mast" trouble={trouble}>
        <p>
          Between quadrats measured at different times compare <b>relative light, not lux</b>: a cloud changes
          lux tenfold while the shade of the trees stays what it is.
        </p>
      </FieldHead>
      <section class="field-block">
        <h2>Light under the open sky</h2>
        <ReferenceChoice
          survey={survey}
          reference="open-sky"
          quantity="illuminance"
          label="The probe under the open sky"
        />
        <p class="field-hint-line">
          Set it up in the open, with no tree or person nearer than a few times its height: level, under the
          same kind of dome as the others, logging every 1 to 5 s, not moved until the last quadrat is done.
        </p>
        {answer === null ? (
          <p class="opening">Pairing…</p>
        ) : answer.light.length === 0 ? (
          <p>
            {!hasSky
              ? 'No probe stands under the open sky yet.'
              : answer.openSky === null
                ? 'The probe under the open sky has no usable reading yet: it needs a calibration that passed.'
                : 'No clean light reading of a quadrat is there to be paired yet.'}
          </p>
        ) : (
          inOrder(answer.light).map((light) => (
            <LightEntry key={`${light.quadrat} ${light.probe}`} light={light} zone={zone} />
          ))
        )}
        {answer !== null && answer.light.length > 0 && (
          <p class="field-hint-line pair-key">
            ● at the quadrat, + under the open sky, ▲ percentage; pale and hollow: left out
          </p>
        )}
      </section>
      <section class="field-block">
        <h2>Wind beside the mast</h2>
        <ReferenceChoice
          survey={survey}
          reference="wind-mast"
          quantity="wind_speed"
          label="The probe on the mast"
        />
        <p class="field-hint-line">
          In the open, at the height the others are read at, guyed, and taken down when thunder is near. Both
          are averaged over the same minutes. Never use it to decide whether a wood is safe.
        </p>
        {answer !== null &&
          (answer.wind.length === 0 ? (
            <p>
              {!hasMast
                ? 'No probe stands on a mast yet.'
                : answer.windMast === null
                  ? 'The probe on the mast has no usable reading yet: it needs a calibration that passed.'
                  : 'No clean wind reading of a quadrat is there to be paired yet.'}
            </p>
          ) : (
            <WindTable wind={inOrder(answer.wind)} />
          ))}
      </section>
    </article>
  )
}
