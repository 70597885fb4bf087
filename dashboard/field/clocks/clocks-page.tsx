import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { TYPED_BOARD } from '../../../hub/contract/wire-names.ts'
import { siteZone } from '../../current-survey.ts'
import { hubMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'
import { PhoneClock } from '../depart/phone-clock.tsx'
import { FieldHead } from '../field-head.tsx'
import { AddCorrection } from './add-correction.tsx'
import { BoardTable } from './board-table.tsx'
import { CorrectionList } from './correction-list.tsx'
import { JumpList } from './jump-list.tsx'
import { boardsOf, useBoardTimes } from './use-board-times.ts'
import { ZoneLine } from './zone-line.tsx'
import '../placements/placements.css'
import './clocks.css'

/** Whose clock says what: to compare, to see how far times can be trusted, and to put them right afterwards. */
export function ClocksPage({ survey }: { survey: SurveyFile }) {
  const [said, setSaid] = useState('')
  const times = useBoardTimes(survey)
  const zone = siteZone.value
  const byHub = (times ?? []).flatMap(({ board, newest }) =>
    newest !== null && newest.timeOrigin !== 'board clock' && board !== TYPED_BOARD ? [board] : [],
  )
  return (
    <article class="field-page clocks-page">
      <FieldHead survey={survey.id} title="Clocks" />
      <PhoneClock />
      <ZoneLine zone={zone} nowMs={Math.floor(hubMs.value / 60_000) * 60_000} />
      <p class="said" role="status" aria-live="polite">
        {said}
        {hub.value?.isRecomputing ? ' Readings are being worked out again.' : ''}
      </p>
      <JumpList survey={survey} boards={byHub} zone={zone} onSaid={setSaid} />
      <section class="field-block">
        <h2>Where each board’s times come from</h2>
        {times === null ? (
          <p class="opening">Looking at the newest readings…</p>
        ) : (
          <BoardTable times={times} zone={zone} />
        )}
      </section>
      <section class="field-block">
        <h2>Clocks put right</h2>
        <CorrectionList survey={survey} zone={zone} onSaid={setSaid} />
        <AddCorrection
          survey={survey}
          boards={boardsOf(survey).filter((board) => board !== TYPED_BOARD)}
          zone={zone}
          onSaid={setSaid}
        />
      </section>
    </article>
  )
}
