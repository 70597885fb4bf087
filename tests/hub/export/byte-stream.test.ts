import { describe, expect, test } from 'vitest'
import { byteStream } from '../../../hub/export/byte-stream.ts'

function made(count: number, failsAt = -1) {
  const seen = { ends: 0, returned: 0 }
  async function* pieces(): AsyncGenerator<Uint8Array> {
    try {
      for (let index = 0; index < count; index++) {
        if (index === failsAt) throw new Error('broken')
        yield Uint8Array.of(index)
      }
    } finally {
      seen.returned++
    }
  }
  return { seen, pieces: pieces(), atEnd: () => void seen.ends++ }
}

describe('byteStream', () => {
  test('gives every piece in order and ends once', async () => {
    const { seen, pieces, atEnd } = made(4)
    const bytes = await new Response(byteStream(pieces, atEnd)).arrayBuffer()
    expect([...new Uint8Array(bytes)]).toEqual([0, 1, 2, 3])
    expect(seen).toEqual({ ends: 1, returned: 1 })
  })
  test('a cancelled reading lets go of what it read', async () => {
    const { seen, pieces, atEnd } = made(1000)
    const reader = byteStream(pieces, atEnd).getReader()
    await reader.read()
    await reader.cancel()
    expect(seen).toEqual({ ends: 1, returned: 1 })
  })
  test('a failure reaches the reader and lets go', async () => {
    const { seen, pieces, atEnd } = made(5, 2)
    await expect(new Response(byteStream(pieces, atEnd)).arrayBuffer()).rejects.toThrow('broken')
    expect(seen).toEqual({ ends: 1, returned: 1 })
  })
  test('a reader who takes nothing is given up', async () => {
    const { seen, pieces, atEnd } = made(5)
    const ended = new Promise<void>((resolve) => {
      const reader = byteStream(
        pieces,
        () => {
          atEnd()
          resolve()
        },
        20,
      ).getReader()
      void reader.closed.catch(() => undefined)
    })
    // what keeps the process alive while an unreferenced timer runs
    const alive = setInterval(() => undefined, 10)
    await ended
    clearInterval(alive)
    expect(seen).toEqual({ ends: 1, returned: 1 })
  })
})
