/** One shape each, so that none is told by colour alone: tick, open ring with a dot, cross, dash. */
const SHAPES = {
  ok: 'M3 8.5 6.5 12 13 4',
  look: 'M8 2 15 14H1ZM8 6.2v4M8 11.4v1',
  fail: 'M3 3l10 10M13 3 3 13',
  none: 'M3 8h10',
} as const
export type FieldState = keyof typeof SHAPES

export function FieldMark({ state, size = 22 }: { state: FieldState; size?: number }) {
  return (
    <svg
      class={`mark field-mark field-${state}`}
      viewBox="0 0 16 16"
      width={size}
      height={size}
      aria-hidden="true"
    >
      <path d={SHAPES[state]} />
    </svg>
  )
}
