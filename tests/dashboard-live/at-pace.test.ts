import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { atPace } from '../../dashboard/at-pace.ts'

const FRAME_MS = 16

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance', 'queueMicrotask'] })
  vi.stubGlobal('requestAnimationFrame', (draw: () => void) => setTimeout(draw, FRAME_MS))
})
afterEach(() => {
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

/** How often something is drawn that is asked for every 10 ms for so long, on a device that needs `drawMs` for it. */
async function drawings(forMs: number, drawMs: number): Promise<number> {
  let count = 0
  const ask = atPace(250, () => {
    count++
    // a busy processor, as its own clock sees it
    vi.advanceTimersByTime(drawMs)
  })
  for (let ms = 0; ms < forMs; ms += 10) {
    ask()
    await vi.advanceTimersByTimeAsync(10)
  }
  return count
}

describe('drawing at the pace of the device', () => {
  it('draws the first at once, and one more when it was asked meanwhile', async () => {
    let count = 0
    const ask = atPace(250, () => count++)
    ask()
    expect(count).toBe(1)
    ask()
    ask()
    expect(count).toBe(1)
    await vi.advanceTimersByTimeAsync(1000)
    expect(count).toBe(2)
    await vi.advanceTimersByTimeAsync(5000)
    expect(count).toBe(2)
    ask()
    expect(count).toBe(3)
  })
  it('is never more often than asked for, and rarer on a slow device', async () => {
    const fast = await drawings(5000, 0)
    const slow = await drawings(5000, 80)
    expect(fast).toBeGreaterThan(5)
    expect(fast).toBeLessThanOrEqual(21)
    expect(slow).toBeGreaterThan(1)
    expect(slow).toBeLessThan(fast / 2)
  })
})
