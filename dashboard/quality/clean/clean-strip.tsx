import type { CleanCount } from '../../../hub/contract/clean.ts'

/** All readings as one strip: what is clean as bare tape, what is left out hatched. The sentence under it says the same. */
export function CleanStrip({ count }: { count: CleanCount }) {
  if (count.all === 0) return null
  const share = count.clean / count.all
  return (
    <svg class="clean-strip" viewBox="0 0 1000 16" preserveAspectRatio="none" aria-hidden="true">
      <defs>
        <pattern
          id="hatch-left-out"
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(38)"
        >
          <path class="hatch" d="M0 2h7" />
        </pattern>
      </defs>
      <rect class="clean-part" width={share * 1000} height="16" />
      <rect x={share * 1000} width={(1 - share) * 1000} height="16" fill="url(#hatch-left-out)" />
      <rect class="clean-edge" width="1000" height="16" />
    </svg>
  )
}
