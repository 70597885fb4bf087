import { describe, expect, test } from 'vitest'
import type { Capture } from '../../dashboard/carry/capture.ts'
import { newCaptureId } from '../../dashboard/carry/capture-id.ts'
import { Outbox, pauseMs, type Sent } from '../../dashboard/carry/outbox.ts'
import { memoryShelf } from '../../dashboard/carry/phone-shelves.ts'
import { sentOf } from '../../dashboard/carry/send-capture.ts'
import { NoAnswer, Refusal } from '../../dashboard/client.ts'
import { SpotId } from '../../hub/contract/spot.ts'

const capture = (id: string, takenMs = 0): Capture => ({
  id,
  survey: 'example',
  spot: { id, quadrat: 'Q5', probe: 'PH-1', held: [] },
  takenMs,
  quantity: 'soil_ph',
  unit: 'pH',
  values: [5.92],
  state: 'waiting',
  refusal: null,
})

/** A phone and a hub: the hub keeps by id and says yes to a repeat, as the contract has it. */
function phone(shelf = memoryShelf<Capture>('id')) {
  const world = {
    shelf,
    isInReach: true,
    refuses: null as { code: string; message: string } | null,
    /** the hub keeps it, and its answer is lost */
    losesAnswer: false,
    atHub: new Map<string, Capture>(),
    attempts: [] as string[],
    shown: [] as readonly Capture[],
    kept: [] as string[],
    pauses: [] as number[],
    calledOff: 0,
    wake: () => {},
    outbox: null as unknown as Outbox,
  }
  const send = async (sent: Capture): Promise<Sent> => {
    world.attempts.push(sent.id)
    if (!world.isInReach) return { as: 'unanswered' }
    if (world.refuses) return { as: 'refused', ...world.refuses }
    world.atHub.set(sent.id, sent)
    return world.losesAnswer ? { as: 'unanswered' } : { as: 'kept' }
  }
  world.outbox = new Outbox({
    shelf,
    send,
    later: (ms, work) => {
      world.pauses.push(ms)
      world.wake = work
      return () => {
        world.calledOff++
      }
    },
    changed: (captures) => {
      world.shown = captures
    },
    kept: ({ id }) => world.kept.push(id),
  })
  return world
}

describe('captures on their way to the hub', () => {
  test('a capture is on the shelf before it is sent, and off it when the hub has it', async () => {
    const world = phone()
    world.isInReach = false
    await world.outbox.add([capture('a')])
    expect(await world.shelf.all()).toHaveLength(1)
    await world.outbox.flush()
    world.isInReach = true
    await world.outbox.flush()
    expect([...world.atHub.keys()]).toEqual(['a'])
    expect(await world.shelf.all()).toEqual([])
    expect(world).toMatchObject({ kept: ['a'], shown: [] })
  })

  test('when the answer is lost it is sent again under the same id, and is at the hub once', async () => {
    const world = phone()
    world.losesAnswer = true
    await world.outbox.add([capture('a')])
    await world.outbox.flush()
    world.losesAnswer = false
    await world.outbox.flush()
    expect(world.attempts.length).toBeGreaterThan(1)
    expect(new Set(world.attempts)).toEqual(new Set(['a']))
    expect(world.atHub.size).toBe(1)
    expect(await world.shelf.all()).toEqual([])
  })

  test('a reload in between loses nothing: another outbox on the same shelf goes on', async () => {
    const before = phone()
    before.isInReach = false
    await before.outbox.add([capture('b', 2), capture('a', 1)])
    const after = phone(before.shelf)
    await after.outbox.flush()
    // the oldest first
    expect(after.attempts).toEqual(['a', 'b'])
    expect(await after.shelf.all()).toEqual([])
  })

  test('two calls to send at once send each capture once', async () => {
    const world = phone()
    await world.outbox.add([capture('a'), capture('b')])
    await Promise.all([world.outbox.flush(), world.outbox.flush()])
    expect(world.attempts).toEqual(['a', 'b'])
  })

  test('without an answer the rest waits, and the pauses grow from 2 s to 60 s', async () => {
    const world = phone()
    world.isInReach = false
    await world.outbox.add([capture('a', 1), capture('b', 2)])
    await world.outbox.flush()
    expect(world.attempts.every((id) => id === 'a')).toBe(true)
    expect(world.pauses[0]).toBe(2000)
    world.isInReach = true
    world.wake()
    await world.outbox.flush()
    expect(world.shown).toEqual([])
    expect([1, 2, 3, 5, 6, 40].map(pauseMs)).toEqual([2000, 4000, 8000, 32_000, 60_000, 60_000])
  })

  test('what is refused stays with its reason, holds up nobody, and goes again when it is put right', async () => {
    const world = phone()
    world.refuses = { code: 'E_QUADRAT_LIFTED', message: 'The frame of Q5 was taken up.' }
    await world.outbox.add([capture('a', 1)])
    await world.outbox.flush()
    world.refuses = null
    await world.outbox.add([capture('b', 2)])
    await world.outbox.flush()
    expect([...world.atHub.keys()]).toEqual(['b'])
    expect(world.shown).toMatchObject([{ id: 'a', state: 'refused', refusal: { code: 'E_QUADRAT_LIFTED' } }])
    await world.outbox.correct('a', 'Q6')
    await world.outbox.flush()
    expect(world.atHub.get('a')!.spot).toMatchObject({ id: 'a', quadrat: 'Q6' })
    expect(world.shown).toEqual([])
  })

  test('what is dropped is gone', async () => {
    const world = phone()
    world.refuses = { code: 'E_NOT_FOUND', message: 'There is no quadrat Q5.' }
    await world.outbox.add([capture('a')])
    await world.outbox.flush()
    await world.outbox.drop('a')
    expect(await world.shelf.all()).toEqual([])
    expect(world.shown).toEqual([])
  })

  test('a shelf that fails for a moment does not stop the sending for good', async () => {
    const world = phone()
    await world.outbox.add([])
    const { all } = world.shelf
    world.shelf.all = () => Promise.reject(new Error('the database is closing'))
    await world.outbox.flush()
    world.shelf.all = all
    await world.outbox.add([capture('a')])
    await world.outbox.flush()
    expect(world.kept).toEqual(['a'])
  })
})

describe('what an answer means', () => {
  test('no answer and trouble of the hub pass by; a refusal is for good', () => {
    expect(sentOf(new NoAnswer())).toEqual({ as: 'unanswered' })
    expect(sentOf(new Refusal('E_DISK', 'The disk is full.'))).toEqual({ as: 'unanswered' })
    expect(sentOf(new Refusal('502', 'Bad Gateway'))).toEqual({ as: 'unanswered' })
    expect(sentOf(new TypeError('fetch failed'))).toEqual({ as: 'unanswered' })
    expect(sentOf(new Refusal('E_SPOT_ELSEWHERE', 'It was at Q2.'))).toEqual({
      as: 'refused',
      code: 'E_SPOT_ELSEWHERE',
      message: 'It was at Q2.',
    })
  })
})

describe('the name of a capture', () => {
  test('is a version 4 UUID of RFC 9562 also where the browser has no randomUUID, and fits the contract', () => {
    const plain = { getRandomValues: crypto.getRandomValues.bind(crypto) }
    const made = Array.from({ length: 200 }, () => newCaptureId(plain))
    for (const id of [...made, newCaptureId()]) {
      expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
      expect(SpotId.safeParse(id).success).toBe(true)
    }
    expect(new Set(made).size).toBe(200)
  })
})
