import { expect, test, vi } from 'vitest'
import { HubError } from '../../../hub/errors.ts'
import { Intake } from '../../../hub/intake/intake.ts'
import type { Arrival, Outcome, StoreWriter, Unreadable } from '../../../hub/store/store.ts'

/** A disk that takes nothing until it is told to. */
class StuckWriter {
  isStuck = true
  kept = 0
  readonly isSealDue = false
  commit(batch: readonly (Arrival | Unreadable)[]): Outcome[] {
    if (this.isStuck) throw Object.assign(new Error('full'), { code: 'SQLITE_FULL' })
    this.kept += batch.length
    return batch.map(() => ({ kind: 'kept', messageId: 1, count: 1, readings: [] }))
  }
}

test.each([
  ['short', 60, 20_000],
  ['long', 60_000, 534],
])(
  'while the disk takes nothing, %s messages are held up to a bound, the rest refused, and all that were held are stored',
  async (_kind, bytes, held) => {
    vi.useFakeTimers()
    const writer = new StuckWriter()
    const worth = { value: null, uncertainty: null, flag: 2, calibrationId: null, why: null } as const
    const intake = new Intake(
      writer as unknown as StoreWriter,
      '/nowhere',
      () => worth,
      () => undefined,
      {
        committed() {},
        isWatched: () => false,
        trouble() {},
      },
    )
    const refused: Error[] = []
    let stored = 0
    const send = () =>
      intake.receive(
        {
          source: 'mqtt:x',
          arrivedMs: Date.UTC(2026, 5, 12),
          format: 'pack',
          board: 'sedge-1',
          bytes: Buffer.from(`[{"n":"x","v":1}]${' '.repeat(bytes)}`),
        },
        (error) => {
          if (error) refused.push(error)
          else stored++
        },
      )
    for (let sent = 0; sent < held + 10; sent++) send()
    expect(refused).toHaveLength(10)
    expect(refused[0]).toBeInstanceOf(HubError)
    expect(stored).toBe(0)
    writer.isStuck = false
    await vi.advanceTimersByTimeAsync(3000)
    expect({ stored, kept: writer.kept }).toEqual({ stored: held, kept: held })
    send()
    await vi.advanceTimersByTimeAsync(100)
    expect(stored).toBe(held + 1)
    vi.useRealTimers()
  },
)

test('a frame that breaks its reader goes to quarantine, and those behind it are stored', async () => {
  const stored: (Arrival | Unreadable)[] = []
  const writer = {
    isSealDue: false,
    commit: (batch: readonly (Arrival | Unreadable)[]): Outcome[] => {
      stored.push(...batch)
      return batch.map(() => ({ kind: 'kept', messageId: 1, count: 1, readings: [] }))
    },
  }
  const worth = { value: null, uncertainty: null, flag: 2, calibrationId: null, why: null } as const
  const broken = () => {
    throw new Error('no map')
  }
  const quiet = { committed() {}, isWatched: () => false, trouble() {} }
  const intake = new Intake(writer as unknown as StoreWriter, '/nowhere', () => worth, broken, quiet)
  const frame = (text: string) =>
    ({ source: 'x', arrivedMs: 0, format: 'line', board: 'sedge-1', bytes: Buffer.from(text) }) as const
  intake.receive(frame('1,2,3'))
  intake.receive(frame('[{"n":"x","v":1}]'))
  intake.drain()
  expect(stored).toMatchObject([
    { code: 'E_LINE_UNREADABLE', message: 'no map' },
    { board: 'sedge-1', signals: [{ channel: 'x', signal: 1 }] },
  ])
})
