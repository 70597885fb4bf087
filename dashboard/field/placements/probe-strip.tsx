import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { oneMethodText } from '../../parts/method-text.ts'
import { quantityWords } from '../../quantities.ts'
import { RoleChoice } from './role-choice.tsx'
import { StretchEditor } from './stretch-editor.tsx'
import { StretchList } from './stretch-list.tsx'
import { isSameStretch } from './stretch-words.ts'
import { type Stretch, stretchesOf } from './stretches.ts'
import type { View } from './strip-geometry.ts'
import { TimeStrip } from './time-strip.tsx'

/** One probe: what it is, what it is for, its time to scale, and the stretch that is being put right. */
export function ProbeStrip(props: {
  survey: SurveyFile
  probe: Probe
  spots: readonly { timeMs: number; quadrat: string }[]
  view: View
  nowMs: number
  zone: string | undefined
  chosen: Stretch | null
  onChoose: (stretch: Stretch | null) => void
  onSaid: (said: string) => void
}) {
  const { survey, probe, spots, view, nowMs, zone, onChoose, onSaid } = props
  const all = stretchesOf(
    survey.placements.filter((placement) => placement.probe === probe.id),
    view.fromMs,
  )
  const chosen = all.find((stretch) => isSameStretch(stretch, props.chosen)) ?? null
  const choose = (stretch: Stretch) => onChoose(isSameStretch(stretch, chosen) ? null : stretch)
  const method = oneMethodText(probe.method)
  return (
    <section class="probe-strip" data-probe={probe.id}>
      <header>
        <h2>{probe.id}</h2>
        <p>
          {quantityWords(probe.quantity).label}
          {method === '' ? '' : `, ${method}`}; {probe.board} {probe.channel}
        </p>
        <RoleChoice survey={survey} probe={probe} onSaid={onSaid} />
      </header>
      <TimeStrip {...{ spots, view, zone, chosen }} probe={probe.id} stretches={all} onChoose={choose} />
      <StretchList {...{ chosen, nowMs, zone }} stretches={all} onChoose={choose} />
      {spots.length > 0 && (
        <p class="field-hint-line">
          ◆ {spots.length === 1 ? 'one spot reading' : `${spots.length} spot readings`}, at{' '}
          {[...new Set(spots.map(({ quadrat }) => quadrat))].join(', ')}
        </p>
      )}
      {chosen && (
        <StretchEditor
          key={`${chosen.fromMs} ${chosen.quadrat}`}
          {...{ survey, probe, nowMs, zone }}
          stretch={chosen}
          onDone={(said) => {
            onChoose(null)
            onSaid(said)
          }}
          onLeave={() => onChoose(null)}
        />
      )}
    </section>
  )
}
