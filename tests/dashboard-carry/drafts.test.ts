import { describe, expect, test } from 'vitest'
import {
  capturesOf,
  type DraftPart,
  newDraft,
  typedCapture,
  withoutLastRound,
  withRound,
} from '../../dashboard/carry/capture.ts'
import { summariseReplicates } from '../../hub/contract/replicates.ts'
import { AddSpot } from '../../hub/contract/spot.ts'

const start = Date.parse('2026-06-12T09:00:00Z')
const at = (seconds: number) => new Date(start + seconds * 1000).toISOString()
const part = (probe: string, from: number, isSteady = true): DraftPart => ({
  probe,
  held: { from: at(from), to: at(from + 15.001), isSteady },
  value: 5.9,
  uncertainty: 0.04,
})
let made = 0
const fresh = (probes: string[]) =>
  newDraft(
    { survey: 'example', quadrat: 'Q5', meter: 'sedge-1', markMs: start },
    probes,
    () => `id-${++made}-made`,
  )

describe('a capture in the making', () => {
  test('each insertion is kept with the time of its last reading, from which the next begins', () => {
    const draft = withRound(withRound(fresh(['PH-1']), [part('PH-1', 10)]), [part('PH-1', 40)])
    expect(draft.rounds).toHaveLength(2)
    expect(draft.markMs).toBe(start + 55_000)
    const back = withoutLastRound(draft)
    expect(back.rounds).toHaveLength(1)
    // what was held and taken back is not held once more
    expect(back.markMs).toBe(start + 55_000)
  })

  test('is finished as one capture a probe, under the ids it began with: finished twice, it is the same', () => {
    const draft = withRound(fresh(['PH-1', 'TEM-1']), [part('PH-1', 10), part('TEM-1', 0, false)])
    const finish = () => capturesOf(draft, 'G3', start, () => ({ quantity: 'soil_ph', unit: 'pH' }))
    const [ph, temperature] = finish()
    expect(finish().map(({ id }) => id)).toEqual([ph!.id, temperature!.id])
    expect(ph!.spot).toEqual({
      id: ph!.id,
      quadrat: 'Q5',
      probe: 'PH-1',
      by: 'G3',
      held: [{ from: at(10), to: at(25.001), isSteady: true }],
    })
    expect(temperature!.spot.held).toMatchObject([{ isSteady: false }])
    expect(AddSpot.safeParse({ ...ph!.spot, sentAt: at(100) }).success).toBe(true)
  })

  test('of a probe that never spoke nothing is sent', () => {
    const draft = withRound(fresh(['PH-1', 'TEM-1']), [part('PH-1', 10)])
    expect(
      capturesOf(draft, null, start, () => ({ quantity: '', unit: '' })).map(({ spot }) => spot.probe),
    ).toEqual(['PH-1'])
  })

  test('typed values keep the moment each was typed', () => {
    const draft = fresh(['EYE-1'])
    const typed = [
      { value: 5.6, at: at(0) },
      { value: 5.7, at: at(30) },
    ]
    const capture = typedCapture(
      draft,
      null,
      start,
      { probe: 'EYE-1', quantity: 'soil_ph', unit: 'pH' },
      typed,
    )
    expect(capture.spot.typed).toEqual(typed)
    expect(AddSpot.safeParse({ ...capture.spot, sentAt: at(60) }).success).toBe(true)
  })
})

describe('what replicates come to', () => {
  const of = (values: number[], uncertainty: number | null = 0.038) =>
    values.map((value) => ({ value, uncertainty }))

  test('domain map 2.10: s = 0.12 of three and an instrument of 0.038 give U95 of about 0.24, not 0.16', () => {
    const { n, mean, range, expanded } = summariseReplicates('soil_ph', of([5.8, 5.92, 6.04]))
    expect(n).toBe(3)
    expect(mean).toBeCloseTo(5.92, 10)
    expect(range).toBeCloseTo(0.24, 10)
    // u = 0.079, k ≈ 3 at 3.4 degrees of freedom: printed as 0.24
    expect(expanded!).toBeGreaterThan(0.225)
    expect(expanded!).toBeLessThan(0.255)
  })

  test('one replicate has no spread, none has no mean', () => {
    expect(summariseReplicates('soil_ph', of([5.9]))).toMatchObject({
      n: 1,
      mean: 5.9,
      range: null,
      expanded: null,
    })
    expect(summariseReplicates('soil_ph', [])).toMatchObject({ n: 0, mean: null, warnings: [] })
  })

  // limits of domain map 2.4: common practice, no source
  test.each([
    ['soil_ph', [5.6, 6.1], 0],
    ['soil_ph', [5.6, 6.11], 1],
    ['soil_moisture', [0.2, 0.3], 0],
    ['soil_moisture', [0.2, 0.31], 1],
    ['illuminance', [1000, 2000], 0],
    ['illuminance', [1000, 2001], 1],
    ['illuminance', [0, 2000], 0],
    ['wind_speed', [0, 9], 0],
  ])('%s of %j gives %i warnings', (quantity, values, count) => {
    expect(summariseReplicates(quantity, of(values)).warnings).toHaveLength(count)
  })
})
