import { useEffect, useState } from 'preact/hooks'
import type { QualityTestListed } from '../../../hub/contract/quality.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import type { Fault } from '../../client.ts'
import { messageOf } from '../../client.ts'
import { rememberSurvey } from '../../current-survey.ts'
import { surveyKept } from '../../notebook.ts'
import { NoSurvey, Waiting } from '../../pages/no-survey.tsx'
import { rowsFor } from '../../quantities.ts'
import { pathTo } from '../../router.ts'
import { qualityTests, readQualityTests } from '../test-list.ts'
import { draftOf } from './drafts.ts'
import { faultPlace } from './fault-places.ts'
import { FlagScale } from './flag-scale.tsx'
import { unitFinder } from './quantity-units.ts'
import { SaveBar } from './save-bar.tsx'
import { changedSettings, withDraft } from './settings.ts'
import { TestSection } from './test-section.tsx'
import { useHashTarget } from './use-hash-target.ts'

/** Every quality test: what it looks for, why, from where, and with what limits in this survey. */
export function QualityPage({ id }: { id: string }) {
  useEffect(() => rememberSurvey(id), [id])
  const [trouble, setTrouble] = useState('')
  const ask = () => {
    setTrouble('')
    readQualityTests().catch((error: unknown) => setTrouble(messageOf(error)))
  }
  useEffect(ask, [])
  const survey = surveyKept(id).value
  const tests = qualityTests.value
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  if (trouble !== '') {
    return (
      <article class="plain-page">
        <p role="alert">{trouble}</p>
        <button type="button" onClick={ask}>
          Ask again
        </button>
      </article>
    )
  }
  if (survey === null || tests === null) return <Waiting />
  return <Tests survey={survey} tests={tests} />
}

function Tests({ survey, tests }: { survey: SurveyFile; tests: readonly QualityTestListed[] }) {
  useHashTarget()
  const draft = draftOf(survey.id)
  const [said, setSaid] = useState<readonly Fault[]>([])
  const unitOf = unitFinder(tests)
  const { settings, faults } = withDraft(tests, survey.quality, draft.value, unitOf)
  const changed = changedSettings(survey.quality, settings)
  // what is typed wrongly is said when it is to be saved, and so is what the hub refused
  const shown = said.flatMap((fault) => faultPlace(fault) ?? [])
  const quantities = rowsFor([
    ...survey.probes.map(({ quantity }) => quantity),
    ...Object.values(survey.quality ?? {}).flatMap((ofTest) => Object.keys(ofTest)),
  ])
  return (
    <article class="quality-page">
      <p>
        <a class="lesser" href={pathTo.survey(survey.id)}>
          whole tape
        </a>
      </p>
      <h1>Quality tests</h1>
      <p class="lead">
        Each test looks at every reading and asks one question about it. A reading gets the worst flag that
        any test gives it, with the reason. No test changes or deletes a reading.
      </p>
      <FlagScale />
      <nav class="test-list" aria-label="Tests on this page">
        {tests.map(({ name, title }) => (
          <a key={name} class="lesser" href={`#${name}`}>
            {title}
          </a>
        ))}
      </nav>
      {tests.map((test) => (
        <TestSection
          key={test.name}
          test={test}
          quantities={quantities}
          quality={survey.quality}
          unitOf={unitOf}
          draft={draft.value}
          changed={changed.filter((each) => each.test === test.name).map(({ quantity }) => quantity)}
          faults={shown.filter((fault) => fault.test === test.name)}
          onDraft={(key, setting) => {
            const { [key]: _, ...others } = draft.value
            draft.value = setting === null ? others : { ...others, [key]: setting }
            setSaid([])
          }}
        />
      ))}
      <SaveBar
        survey={survey}
        tests={tests}
        settings={settings}
        changed={changed}
        typedFaults={faults}
        said={said}
        onSaid={setSaid}
        onDiscard={() => {
          draft.value = {}
          setSaid([])
        }}
      />
    </article>
  )
}
