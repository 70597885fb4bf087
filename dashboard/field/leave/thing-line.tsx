import type { LeaveThing } from '../../../hub/contract/field.ts'
import { benchPath } from '../../bench/places.ts'
import { pathTo } from '../../router.ts'
import { FieldMark } from '../field-marks.tsx'

/** One thing that is missing, and the way to mend it. */
export function ThingLine(props: { survey: string; thing: LeaveThing; quadrat: string | null }) {
  const { thing } = props
  const way = wayTo(props.survey, thing)
  return (
    <li data-thing={thing.kind}>
      <FieldMark state={thing.kind === 'trap' || thing.kind === 'measure' ? 'fail' : 'look'} />
      <span class="field-text">{thing.words}</span>
      {way && <a href={way.href}>{way.words}</a>}
    </li>
  )
}

function wayTo(survey: string, { kind, of }: LeaveThing): { href: string; words: string } | null {
  switch (kind) {
    case 'calibration':
      return of === null ? null : { href: benchPath.probe(survey, of), words: 'Calibrate' }
    case 'clock':
      return { href: pathTo.chapter(survey, 'field', 'clocks'), words: 'Clocks' }
    case 'trap':
      return { href: pathTo.chapter(survey, 'field', 'traps'), words: 'Traps' }
    case 'board':
    case 'probe':
    case 'value':
      return { href: pathTo.boards, words: 'Boards' }
    case 'measure':
      return null
  }
}
