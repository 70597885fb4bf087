import type { DepartureItem } from '../../../hub/contract/field.ts'

/** Items that say the same of several boards or probes, as one with all their names; in the order of the first of each. */
export function alike(items: readonly DepartureItem[]): { item: DepartureItem; titles: string[] }[] {
  const groups = new Map<string, { item: DepartureItem; titles: string[] }>()
  for (const item of items) {
    const key = JSON.stringify([item.about, item.state, item.words, item.remedy])
    const before = groups.get(key)
    if (before) before.titles.push(item.title)
    else groups.set(key, { item, titles: [item.title] })
  }
  return [...groups.values()]
}
