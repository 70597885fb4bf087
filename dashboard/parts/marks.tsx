import type { Standing } from '../standing.ts'

/** One shape per standing, so that none is told by colour alone. */
const SHAPES: Record<Standing, string> = {
  clean: 'M4 8.5 7 11.5 12.5 4.5',
  unchecked: 'M8 4a4 4 0 1 0 0 8 4 4 0 1 0 0-8',
  suspect: 'M8 2 15 14H1ZM8 6.2v4M8 11.4v1',
  fail: 'M2.5 2.5l11 11M13.5 2.5l-11 11',
  uncalibrated: 'M8 1.5 14.5 8 8 14.5 1.5 8Z',
  missing: 'M2.5 2.5h11v11h-11Z',
}

export function StandingMark({ standing }: { standing: Standing }) {
  return (
    <svg class={`mark mark-${standing}`} viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <path d={SHAPES[standing]} />
    </svg>
  )
}

export function LateMark() {
  return (
    <svg class="mark mark-late" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <circle cx="8" cy="8" r="6.2" />
      <path d="M8 4.4V8l2.6 2" />
    </svg>
  )
}

/** What was done to a probe: a bottle for a calibration, a peg in the ground for a placement. */
export function DoneMark({ kind }: { kind: 'calibration' | 'placement' }) {
  return (
    <svg class={`mark mark-${kind}`} viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <path
        d={
          kind === 'calibration'
            ? 'M6 1.5h4M6.8 1.5v4L3 14.5h10L9.2 5.5v-4M4.6 10.6h6.8'
            : 'M5 1.5h6M8 1.5v9.5M5.6 8.4 8 14.5l2.4-6.1M1 11.5h4M11 11.5h4'
        }
      />
    </svg>
  )
}

/** A tuft of grass standing on a tape. */
export function TussockMark() {
  return (
    <svg class="tussock" viewBox="0 0 44 34" width="44" height="34" aria-hidden="true">
      <path
        class="blades"
        d="M22 25C21 16 21 9 23 2M22 25C19 17 15 10 9 6M22 25C25 17 29 11 36 7M22 25C17 20 11 17 3 17M22 25C27 20 33 17 41 18"
      />
      <path class="tape-bit" d="M1 25.5h42v8H1Z" />
      <path class="tape-ticks" d="M6 25.5v4M14 25.5v4M22 25.5v7M30 25.5v4M38 25.5v4" />
    </svg>
  )
}
