import type { Progress } from './progress.ts'

/** An empty ring, a half-filled one, a tick in a square: told apart without colour. */
export function ProgressMark({ state }: { state: Progress['state'] }) {
  return (
    <svg class="mark" viewBox="0 0 16 16" width="18" height="18" aria-hidden="true">
      {state === 'done' ? (
        <path d="M2 2h12v12H2ZM4.6 8.4 7 10.8 11.4 5" />
      ) : (
        <>
          <circle cx="8" cy="8" r="6" stroke-dasharray={state === 'none' ? '2.5 2.2' : 'none'} />
          {state === 'some' && <path d="M8 2a6 6 0 0 0 0 12Z" fill="currentColor" />}
        </>
      )}
    </svg>
  )
}
