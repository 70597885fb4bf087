import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { DoubtfulCells } from '../species/doubtful-cells.tsx'
import { EarlierSheets } from '../species/earlier-sheets.tsx'
import { GiveSheet } from '../species/give-sheet.tsx'
import { studyClient } from '../study-client.ts'
import { StudyHead } from '../study-head.tsx'
import { useAsked } from '../use-asked.ts'
import { CatchList } from './catch-list.tsx'
import { TypeAnimals } from './type-animals.tsx'

/** Animals with the effort of catching them, beside the readings of the time the trap stood. */
export function AnimalsPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const [failed, setFailed] = useState('')
  const asked = useAsked(id, () => studyClient.sheets(id))
  const sheets = (asked.answer ?? []).filter(({ kind }) => kind === 'animals')
  const inUse = sheets.find(({ isRemoved }) => !isRemoved)
  const catches = useAsked(id, () => studyClient.catches(id), [asked.answer])
  const places = [
    ...(survey.traps ?? []).map((trap) => trap.id),
    ...survey.quadrats.map(({ label }) => label),
  ]
  return (
    <article class="study-page">
      <StudyHead survey={id} title="Animals" trouble={asked.trouble} onAgain={asked.askAgain}>
        <p>
          A count says little without its effort: how many traps, how many hours, how many sweeps. Let animals
          go where they were caught.
        </p>
      </StudyHead>
      {inUse?.trouble && (
        <p class="study-trouble" role="alert">
          <b>{inUse.name} cannot be read.</b> {inUse.trouble}
        </p>
      )}
      {failed && (
        <p class="study-trouble" role="alert">
          {failed}
        </p>
      )}
      {asked.answer && sheets.length === 0 && (
        <p class="lead">
          No animals yet. A sheet has the headings trap, taxon, count, and what you know of method, set,
          checked, hours, sweeps and traps.
        </p>
      )}
      {catches.answer && catches.answer.length > 0 && (
        <section class="study-block">
          <h2>Caught, and what it was like there</h2>
          <CatchList catches={catches.answer} />
        </section>
      )}
      {inUse?.animals && <DoubtfulCells {...inUse.animals} />}
      <GiveSheet survey={id} kind="animals" isReplacing={inUse !== undefined} onGiven={asked.askAgain} />
      <TypeAnimals
        survey={id}
        places={places}
        records={inUse?.animals?.records ?? []}
        onGiven={asked.askAgain}
      />
      <EarlierSheets
        sheets={sheets}
        inUse={inUse?.id ?? null}
        isBusy={asked.isAsking}
        onRemove={(sheet, isRemoved) =>
          void studyClient
            .removeSheet(id, sheet.id, isRemoved)
            .then(() => {
              setFailed('')
              asked.askAgain()
            })
            .catch((error: unknown) => setFailed(messageOf(error)))
        }
      />
    </article>
  )
}
