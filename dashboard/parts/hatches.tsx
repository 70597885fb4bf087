/** Pencil shading for the zones: crossed, single and dotted strokes. Drawn once a page. */
export function Hatches() {
  return (
    <svg class="hidden-defs" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern
          id="hatch-shade"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(38)"
        >
          <path class="hatch" d="M0 1h6M0 4h6M3 0v6" />
        </pattern>
        <pattern
          id="hatch-edge"
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(38)"
        >
          <path class="hatch" d="M0 2h7" />
        </pattern>
        <pattern id="hatch-open" width="12" height="9" patternUnits="userSpaceOnUse">
          <path class="hatch" d="M2 6l1-3M8 3l1-2" />
        </pattern>
      </defs>
    </svg>
  )
}
