import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FlagReason } from '../../../hub/contract/flag.ts'
import { countClean } from '../../../hub/export/clean-count.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

/** A thermometer every 2 s with one jump of 6 °C; message n carries second 2n. */
const warm = (n: number) => 12.5 + (n === 10 ? 6 : 0) + (n % 2) / 16
const send = (hub: SmallHub, ...numbers: number[]) => {
  for (const n of numbers)
    hub.send(nineOClock + 2000 * n, [{ n: 'sedge-1/temperature', u: 'Cel', v: warm(n) }])
}
const upTo = (n: number) => Array.from({ length: n }, (_, k) => k)

function newHub(folder = temporaryFolder()): SmallHub {
  const hub = new SmallHub(folder)
  hub.keeper.save(exampleSurvey(), 'test')
  return hub
}

/** Flag and names of the reasons of every reading, in time order. */
function judged(hub: SmallHub): [number, string[]][] {
  const series = hub.reader.series(1, 0, 1e14, 1000)
  return series.id.map((id, place) => {
    const { why } = hub.reader.reading(id!)!
    return [series.flag[place]!, why ? (JSON.parse(why) as FlagReason[]).map(({ test }) => test) : []]
  })
}

describe('the review of series that have arrived', () => {
  test('a spike is flagged with its reason once its neighbours are there, and leaves the clean set', () => {
    const hub = newHub()
    send(hub, ...upTo(20))
    expect(judged(hub).every(([flag]) => flag === 1)).toBe(true)
    hub.review()
    // QARTOD spike test, fail above 5 °C by default: |18.5 − 12.56| for the spike, half of it for each shoulder (suspect above 1)
    const flags = judged(hub)
    expect(flags[10]).toEqual([4, ['spike']])
    expect(flags[9]![0]).toBe(3)
    expect(flags[11]![0]).toBe(3)
    expect(flags.filter(([flag]) => flag === 1)).toHaveLength(17)
    expect(countClean(hub.reader, hub.keeper.timelines, 'example').leftOut).toContainEqual({
      reason: 'spike',
      n: 3,
    })
    hub.close()
  })

  test('a review that was due when the hub was killed is done by the next one', () => {
    const folder = temporaryFolder()
    const hub = newHub(folder)
    send(hub, ...upTo(20))
    hub.writer.seal()
    hub.close()
    const again = new SmallHub(folder)
    again.review()
    expect(judged(again)[10]).toEqual([4, ['spike']])
    again.close()
  })

  test('in whatever order readings arrive, and wherever the inbox is sealed between them, the flags end the same', () => {
    const expected = (() => {
      const hub = newHub()
      send(hub, ...upTo(20))
      hub.review()
      const flags = judged(hub)
      hub.close()
      return flags
    })()
    const order = fc.shuffledSubarray(upTo(20), { minLength: 20, maxLength: 20 })
    const cuts = fc.array(fc.integer({ min: 1, max: 19 }), { maxLength: 4 })
    fc.assert(
      fc.property(order, cuts, (numbers, places) => {
        const hub = newHub()
        for (const [place, n] of numbers.entries()) {
          if (places.includes(place)) hub.review()
          send(hub, n)
        }
        hub.review()
        expect(judged(hub)).toEqual(expected)
        hub.close()
      }),
      { numRuns: 15 },
    )
  })

  test('a span of many steps, gone on with where the last one ended, gets the flags of one reviewed bit by bit', () => {
    // pH every 2 s, 4,000 times: trembling, with spikes, a stuck while, gaps, and a while on an open wire
    const millivoltAt = (n: number) =>
      (n > 1500 && n < 1900 ? 84 : 84 + ((n * 7919) % 13) / 10) +
      (n % 611 === 0 ? 150 : 0) +
      (n > 2900 && n < 3300 ? ((n * 31) % 9) * 8 : 0)
    const numbers = upTo(4000).filter((n) => n % 1000 < 960)
    const sendPh = (hub: SmallHub, some: readonly number[]) =>
      hub.send(
        nineOClock + 50_000_000,
        ...some.map((n) => [
          { bt: nineOClock / 1000 + 2 * n, bn: 'sedge-1/', n: 'ph', u: 'mV', v: millivoltAt(n) },
          { n: 'temperature', u: 'Cel', v: 12 + (n % 7) / 100 },
        ]),
      )
    const flagsOf = (hub: SmallHub) =>
      [...hub.reader.toAppraise().judged(1, { fromMs: 0, fromId: 0 }, 1e14, 10_000)].map(({ t_ms, flag }) => [
        t_ms,
        flag,
      ])
    const atOnce = newHub()
    for (let from = 0; from < numbers.length; from += 500) sendPh(atOnce, numbers.slice(from, from + 500))
    atOnce.review()
    const inBits = newHub()
    for (let from = 0; from < numbers.length; from += 97) {
      sendPh(inBits, numbers.slice(from, from + 97))
      inBits.review()
    }
    const flags = flagsOf(atOnce)
    expect(flags).toHaveLength(numbers.length)
    const found = flags.filter(([, flag]) => flag !== 1).length
    expect(found).toBeGreaterThan(400)
    expect(found).toBeLessThan(2000)
    expect(flagsOf(inBits)).toEqual(flags)
    atOnce.close()
    inBits.close()
  })

  test('new limits flag what is stored again, in both directions, and a switched-off test says nothing', () => {
    const hub = newHub()
    send(hub, ...upTo(20))
    hub.review()
    const before = judged(hub)
    const withLimits = (limits: 'off' | Record<string, unknown>) => {
      hub.keeper.change('example', 'limits', (survey) => ({
        ...survey,
        quality: { spike: { soil_temperature: limits } },
      }))
      hub.review()
      return judged(hub)
    }
    expect(withLimits('off').every(([flag]) => flag === 1)).toBe(true)
    const wide = { differenceIs: 'absolute', suspectDifference: 4, failDifference: 10 }
    expect(
      withLimits(wide)
        .map(([flag]) => flag)
        .filter((flag) => flag !== 1),
    ).toEqual([3])
    hub.keeper.change('example', 'defaults', ({ quality: _own, ...survey }) => survey)
    hub.review()
    expect(judged(hub)).toEqual(before)
    hub.close()
  })

  test('limits that make no sense are refused with their place, and nothing is changed', () => {
    const hub = newHub()
    for (const [quality, path] of [
      [{ magic: { soil_ph: 'off' } }, 'quality.magic'],
      [{ spike: { soil_ph: { suspectDifference: -1 } } }, 'quality.spike.soil_ph'],
    ] as const)
      expect(() => hub.keeper.change('example', 'x', (survey) => ({ ...survey, quality }))).toThrow(path)
    expect(hub.keeper.timelines.surveys[0]!.quality).toBeUndefined()
    hub.close()
  })

  test('what was found on arrival stays beside what the series shows, and a new calibration reviews again', () => {
    const hub = newHub()
    send(hub, ...upTo(9))
    hub.send(nineOClock + 18_000, [{ n: 'sedge-1/temperature', u: 'Cel', v: -127 }])
    hub.review()
    expect(judged(hub)[9]![1]).toContain('fault-code')
    hub.keeper.change('example', 'recalibrated', (survey) => ({
      ...survey,
      calibrations: survey.calibrations.map((each) =>
        each.id === 'temp-cal-1'
          ? { ...each, recipe: { kind: 'digital-temperature' as const, offsetCelsius: 0.4 } }
          : each,
      ),
    }))
    hub.recompute()
    hub.review()
    expect(judged(hub)[9]).toEqual([4, expect.arrayContaining(['fault-code'])])
    hub.close()
  })
})
