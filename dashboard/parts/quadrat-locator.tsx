import type { TransectQuadrat } from '../../hub/contract/quadrat-place.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { TapeWide } from './tape-wide.tsx'
import { useWidth } from './use-width.ts'

/** The tape, small, with one quadrat filled in: where on the gradient this is. */
export function QuadratLocator(props: {
  transect: SurveyFile['transects'][number]
  quadrats: readonly TransectQuadrat[]
  chosen: string
}) {
  const [ref, width] = useWidth<HTMLDivElement>()
  return (
    <div class="locator" ref={ref}>
      {width > 0 && <TapeWide {...props} width={width} fromX={14} toX={width - 18} isCompact />}
    </div>
  )
}
