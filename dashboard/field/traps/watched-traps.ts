import { computed, effect, signal } from '@preact/signals'
import type { TrapWatched } from '../../../hub/contract/trap.ts'
import { currentSurvey } from '../../current-survey.ts'
import { hubMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'
import { fieldClient } from '../field-client.ts'
import { stateNow } from './trap-words.ts'

const AGAIN_MS = 30_000

const surveyCount = computed(() => hub.value?.surveys.length ?? 0)

/** Open traps of every survey, as the hub told last; what is overdue is reckoned here, also while the hub is away. */
const watched = signal<readonly TrapWatched[]>([])

export function readWatchedTraps(): void {
  fieldClient
    .watchedTraps()
    .then(({ traps }) => {
      watched.value = traps
    })
    // what was told last goes on counting
    .catch(() => undefined)
}

/** Past their time, the longest first. */
export const overdueTraps = computed(() => ofState('overdue'))
/** In the last quarter of their time. */
export const dueTraps = computed(() => ofState('due'))

function ofState(state: 'overdue' | 'due'): TrapWatched[] {
  return watched.value
    .filter((trap) => stateNow(trap, hubMs.value) === state)
    .sort((one, other) => (one.dueMs ?? 0) - (other.dueMs ?? 0))
}

/** Asks the hub now, every half minute, and when the survey that is looked at has changed; until the function returned is called. */
export function watchTraps(): () => void {
  const timer = setInterval(readWatchedTraps, AGAIN_MS)
  const stop = effect(() => {
    if (currentSurvey.value !== null || surveyCount.value > 0) readWatchedTraps()
  })
  return () => {
    clearInterval(timer)
    stop()
  }
}
