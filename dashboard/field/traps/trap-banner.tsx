import { useEffect } from 'preact/hooks'
import type { TrapWatched } from '../../../hub/contract/trap.ts'
import { spanText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'
import { pathTo } from '../../router.ts'
import { isSounding, mayNotSound, setSounding, soundWhile } from './trap-sound.ts'
import { dueTraps, overdueTraps, watchTraps } from './watched-traps.ts'
import './trap-banner.css'

/** On every page: a trap past its time, and before that one whose time is running out. Animals suffer. */
export function TrapBanner() {
  useEffect(watchTraps, [])
  const overdue = overdueTraps.value
  const holding = overdue.filter(({ holdsAnimals }) => holdsAnimals)
  const others = overdue.filter(({ holdsAnimals }) => !holdsAnimals)
  const due = dueTraps.value
  useEffect(() => soundWhile(holding.length > 0), [holding.length > 0, isSounding.value])
  return (
    <>
      {holding.length > 0 && (
        <div class="trap-alarm" role="alert" data-trap-alarm={holding.length}>
          <svg viewBox="0 0 40 36" width="60" height="54" aria-hidden="true">
            <path d="M20 2 39 34H1Z" />
            <path class="trap-alarm-hand" d="M20 12v11M20 27v3" />
          </svg>
          <div>
            <b class="trap-alarm-title">
              {holding.length === 1
                ? 'A trap with animals is overdue'
                : `${holding.length} traps with animals are overdue`}
            </b>
            <ul>
              {holding.map((trap) => (
                <li key={`${trap.survey} ${trap.trap.id}`}>
                  <a href={pathTo.chapter(trap.survey, 'field', 'traps')}>{named(trap)}</a>
                </li>
              ))}
            </ul>
            <p>Look at it now: animals in it may be cold, hungry or dying.</p>
          </div>
          <div class="trap-alarm-sound">
            <button
              type="button"
              class="plain"
              aria-pressed={isSounding.value}
              onClick={() => setSounding(!isSounding.value)}
            >
              Sound: {isSounding.value ? 'on' : 'off'}
            </button>
            {mayNotSound.value && <small>This browser makes no sound until the page is touched.</small>}
          </div>
        </div>
      )}
      {others.length > 0 && <Soon kind="trouble" lead="Overdue:" traps={others} />}
      {due.length > 0 && <Soon kind="notice" lead="Due soon:" traps={due} />}
    </>
  )
}

function Soon(props: { kind: 'trouble' | 'notice'; lead: string; traps: readonly TrapWatched[] }) {
  return (
    <div class={`slip ${props.kind}`} role="status" data-trap-soon={props.traps.length}>
      <span>
        <b>{props.lead}</b>{' '}
        {props.traps.map((trap, index) => (
          <span key={`${trap.survey} ${trap.trap.id}`}>
            {index > 0 && '; '}
            <a href={pathTo.chapter(trap.survey, 'field', 'traps')}>{named(trap)}</a>
          </span>
        ))}
      </span>
    </div>
  )
}

/** `live mammal trap at Q3: 2 h 10 min over`; the survey too where the hub has several. */
function named(trap: TrapWatched): string {
  const overMs = hubMs.value - (trap.dueMs ?? hubMs.value)
  const time = overMs >= 0 ? `${spanText(overMs)} over` : `within ${spanText(-overMs)}`
  const ofSurvey = (hub.value?.surveys.length ?? 0) > 1 ? `, ${trap.title}` : ''
  return `${trap.trap.method} at ${trap.trap.quadrat}${ofSurvey}: ${time}`
}
