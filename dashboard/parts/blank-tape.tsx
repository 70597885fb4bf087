import type { SurveyFile } from '../../hub/contract/survey.ts'
import { TapeWide } from './tape-wide.tsx'
import { useWidth } from './use-width.ts'

const EXAMPLE: SurveyFile['transects'][number] = {
  id: 'T1',
  lengthMetres: 10,
  markSpacingMetres: 0.5,
  zones: [
    { name: 'shade', fromMetres: 0, toMetres: 4 },
    { name: 'edge', fromMetres: 4, toMetres: 6 },
    { name: 'open', fromMetres: 6, toMetres: 10 },
  ],
}

/** A tape from shade to light with nothing on it yet: the picture at the head of a fresh notebook. */
export function BlankTape() {
  const [ref, width] = useWidth<HTMLDivElement>()
  return (
    <div class="blank-tape" ref={ref} aria-hidden="true">
      {width > 0 && <TapeWide transect={EXAMPLE} quadrats={[]} width={width} fromX={12} toX={width - 16} />}
    </div>
  )
}
