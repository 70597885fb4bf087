import { describe, expect, test } from 'vitest'
import { exportQuery } from '../../../hub/contract/export-query.ts'
import { readingsCsv } from '../../../hub/export/readings-csv.ts'
import { StoreSnapshot } from '../../../hub/export/store-snapshot.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const all = { channel: 1, fromMs: -8.64e15, toMs: 8.64e15 }

function counted(store: StoreSnapshot): { slices: number; csv: number; clean: number; reasons: number } {
  const sum = (numbers: Iterable<number>) => [...numbers].reduce((total, each) => total + each, 0)
  return {
    slices: sum([...store.slices(all.channel, all.fromMs, all.toMs)].map((slice) => slice.length)),
    csv: sum([...store.csvSlices().of({ ...row, ...all })].map((lines) => lines.split('\r\n').length - 1)),
    clean: store.cleanValues(all.channel, all.fromMs, all.toMs, false).value.length,
    reasons: sum(store.countByReason(all.channel, all.fromMs, all.toMs, false).values()),
  }
}

const row = {
  rows: 'all',
  acceptSuspect: false,
  withReason: false,
  reason: null,
  reasonText: null,
  afterTime: '',
  unit: '',
  probe: '',
  signalUnit: '',
  withDrift: false,
  drift: null,
} as const

function filled(): { folder: string; hub: SmallHub; send: (second: number) => void } {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  hub.keeper.save(exampleSurvey(), 'test')
  const send = (second: number) =>
    void hub.send(nineOClock + second * 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 12 }])
  for (let second = 0; second < 5; second++) send(second)
  hub.review()
  return { folder, hub, send }
}

describe('a snapshot of the store', () => {
  test('stands still while the hub goes on writing, sealing and changing the survey', () => {
    const { folder, hub, send } = filled()
    const store = new StoreSnapshot(folder)
    send(6)
    hub.review()
    hub.keeper.save({ ...exampleSurvey(), title: 'Another' }, 'test')
    expect(counted(store)).toEqual({ slices: 5, csv: 5, clean: 5, reasons: 5 })
    expect(store.surveys()[0]!.title).toBe(exampleSurvey().title)
    store.close()
    const later = new StoreSnapshot(folder)
    expect(counted(later).slices).toBe(6)
    expect(later.surveys()[0]!.title).toBe('Another')
    later.close()
    hub.close()
  })

  test('counts what has just come, or leaves it out everywhere and says how much that is', () => {
    const { folder, hub, send } = filled()
    send(7)
    const everything = new StoreSnapshot(folder)
    expect(counted(everything)).toEqual({ slices: 6, csv: 6, clean: 6, reasons: 6 })
    const sealed = new StoreSnapshot(folder, true)
    expect(counted(sealed)).toEqual({ slices: 5, csv: 5, clean: 5, reasons: 5 })
    expect(sealed.unsealed).toBe(1)
    expect([everything.isUnsettled, sealed.isUnsettled]).toEqual([false, false])
    everything.close()
    sealed.close()
    hub.close()
  })

  test('knows that values are still to be worked out anew', () => {
    const { folder, hub } = filled()
    const survey = exampleSurvey()
    survey.calibrations[1]!.recipe = { kind: 'digital-temperature', offsetCelsius: 1 }
    hub.keeper.save(survey, 'test')
    const store = new StoreSnapshot(folder, true)
    expect(store.isUnsettled).toBe(true)
    store.close()
    hub.recompute()
    hub.review()
    const settled = new StoreSnapshot(folder, true)
    expect(settled.isUnsettled).toBe(false)
    settled.close()
    hub.close()
  })

  test('slices of a channel, longer than one, hold each reading once and in order', () => {
    const { folder, hub } = filled()
    const packs = Array.from({ length: 9000 }, (_, k) => [
      { n: 'sedge-1/temperature', u: 'Cel', v: 12, t: -(k + 1) },
    ])
    hub.send(nineOClock, ...packs)
    hub.review()
    const store = new StoreSnapshot(folder)
    const times = [...store.slices(1, all.fromMs, all.toMs)].flat().map(({ timeMs }) => timeMs)
    expect(times).toHaveLength(9005)
    expect([...new Set(times)].sort((a, b) => a - b)).toEqual(times)
    const { keeper } = hub
    const csv = [...readingsCsv(store, keeper.timelines, exportQuery.parse({ set: 'all' }))].join('')
    expect(csv.split('\r\n')).toHaveLength(9005 + 2)
    store.close()
    hub.close()
  })
})
