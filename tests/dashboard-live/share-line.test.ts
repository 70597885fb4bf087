import { describe, expect, it } from 'vitest'
import type { LineHeard, Told } from '../../dashboard/live-line.ts'
import { SharedLine, type ToTab } from '../../dashboard/share-line.ts'

const readings = (cursor: number): Told => ({ name: 'readings', text: `{"n":${cursor}}`, cursor })
const pulse: Told = { name: 'pulse', text: '{}', cursor: null }

/** A shared line on a hub made of nothing: what it says is said by the test. */
function share() {
  const opened: { since: number; hub: LineHeard; isOpen: boolean }[] = []
  const heard = new Map<string, ToTab[]>()
  const shared = new SharedLine<string>(
    (since, hub) => {
      const line = { since, hub, isOpen: true }
      opened.push(line)
      return {
        close() {
          line.isOpen = false
        },
      }
    },
    (tab, message) => heard.set(tab, [...(heard.get(tab) ?? []), message]),
  )
  const hub = () => opened.at(-1)!.hub
  const cursors = (tab: string) =>
    (heard.get(tab) ?? []).flatMap((message) => (message.kind === 'told' ? (message.told.cursor ?? []) : []))
  const kinds = (tab: string) => (heard.get(tab) ?? []).map(({ kind }) => kind)
  return { shared, opened, hub, heard, cursors, kinds }
}

describe('one line for all tabs', () => {
  it('is opened for the first from where it is, tells all, and is closed after the last', () => {
    const { shared, opened, hub, cursors } = share()
    shared.join('one', 7)
    shared.join('other', 7)
    expect(opened).toHaveLength(1)
    expect(opened[0]).toMatchObject({ since: 7, isOpen: true })
    hub().told(readings(8))
    shared.leave('one')
    hub().told(readings(9))
    expect(cursors('one')).toEqual([8])
    expect(cursors('other')).toEqual([8, 9])
    shared.leave('other')
    expect(opened[0]!.isOpen).toBe(false)
    shared.join('one', 8)
    expect(opened[1]).toMatchObject({ since: 8, isOpen: true })
  })

  it('tells one that joins late how many changes there have been, whatever event said it last', () => {
    const { shared, hub, heard } = share()
    shared.join('one', 0)
    hub().told({ name: 'surveys', text: '{"changes":5}', cursor: null })
    hub().told({ name: 'resync', text: '{"changes":6}', cursor: 9 })
    hub().told(readings(10))
    shared.join('other', 10)
    expect(heard.get('other')).toEqual([
      { kind: 'told', told: { name: 'pulse', text: '{"changes":6}', cursor: null }, isLate: true },
    ])
  })

  it('tells one that joins late what came between its own cursor and its joining, as late', () => {
    const { shared, hub, heard } = share()
    shared.join('one', 0)
    hub().alive()
    for (const cursor of [1, 2, 3]) hub().told(readings(cursor))
    hub().told(pulse)
    shared.join('other', 1)
    expect(heard.get('other')).toEqual([
      { kind: 'alive' },
      { kind: 'told', told: pulse, isLate: true },
      { kind: 'told', told: readings(2), isLate: true },
      { kind: 'told', told: readings(3), isLate: true },
    ])
    hub().told(readings(4))
    expect(heard.get('other')!.at(-1)).toEqual({ kind: 'told', told: readings(4), isLate: false })
  })

  it('says so to one that has missed more than is kept, and to none that has missed exactly that', () => {
    const { shared, hub, kinds, cursors } = share()
    shared.join('one', 0)
    for (let cursor = 1; cursor <= 250; cursor++) hub().told(readings(cursor))
    shared.join('just', 150)
    expect(kinds('just')).not.toContain('behind')
    expect(cursors('just')).toEqual(Array.from({ length: 100 }, (_, index) => 151 + index))
    shared.join('behind', 149)
    expect(kinds('behind')).toEqual(['behind'])
  })

  it('keeps nothing over a break: the hub that answers next may be another', () => {
    const { shared, hub, kinds, cursors } = share()
    shared.join('one', 10)
    hub().alive()
    hub().told(readings(11))
    hub().lost()
    shared.join('other', 10)
    shared.join('up to date', 11)
    hub().alive()
    expect(kinds('other')).toEqual(['behind', 'alive'])
    expect(kinds('up to date')).toEqual(['alive'])
    expect(kinds('one')).toEqual(['alive', 'told', 'lost', 'alive'])
    // an emptied hub begins anew
    hub().told({ name: 'resync', text: '{}', cursor: 2 })
    hub().told(readings(3))
    shared.join('new', 2)
    expect(cursors('new')).toEqual([3])
  })
})
