import type { DepartureItem } from '../../../hub/contract/field.ts'
import { benchPath } from '../../bench/places.ts'
import { pathTo } from '../../router.ts'
import { FieldMark } from '../field-marks.tsx'

/** What does not stand as it should, of one or of several: what was found, what to do, and where. */
export function DepartItem(props: { survey: string; item: DepartureItem; titles: readonly string[] }) {
  const { survey, item, titles } = props
  const isOne = titles.length === 1
  const way = item.to === null ? null : wayTo(survey, isOne ? item.to : { ...item.to, probe: null })
  return (
    <li data-item={item.about} data-state={item.state}>
      <FieldMark state={item.state} />
      <span class="depart-text">
        <b>{titles.join(', ')}</b> <em>{item.state === 'fail' ? 'to mend' : 'to look at'}</em>
        <span class="depart-words">{item.words}</span>
        {item.remedy && <strong>{item.remedy}</strong>}
      </span>
      {way && (
        <a class="button plain" href={way.href}>
          {way.words}
        </a>
      )}
    </li>
  )
}

function wayTo(
  survey: string,
  { page, probe }: NonNullable<DepartureItem['to']>,
): { href: string; words: string } {
  switch (page) {
    case 'boards':
      return { href: pathTo.boards, words: 'Boards' }
    case 'quarantine':
      return { href: pathTo.quarantine, words: 'Quarantine' }
    case 'plan':
      return { href: pathTo.chapter(survey, 'plan'), words: 'Plan' }
    case 'clocks':
      return { href: pathTo.boards, words: 'Boards' }
    case 'probe':
      return { href: probe === null ? pathTo.bench : benchPath.probe(survey, probe), words: 'Bench' }
  }
}
