import { describe, expect, it } from 'vitest'
import { ChangesSeen } from '../../dashboard/changes-seen.ts'

describe('changes that a page has not heard of', () => {
  it('finds none while it hears every one', () => {
    const seen = new ChangesSeen(7)
    expect(seen.isMissed('pulse', 7)).toBe(false)
    expect(seen.isMissed('surveys', 8)).toBe(false)
    expect(seen.isMissed('directory', 8)).toBe(false)
    expect(seen.isMissed('spots', 9)).toBe(false)
    expect(seen.isMissed('recomputed', 10)).toBe(false)
  })

  it('finds one told between fetching and listening, or while the page was out of sight, and finds it once', () => {
    const seen = new ChangesSeen(7)
    expect(seen.isMissed('pulse', 8)).toBe(true)
    expect(seen.isMissed('pulse', 8)).toBe(false)
    expect(seen.isMissed('surveys', 10)).toBe(true)
    expect(seen.isMissed('directory', 10)).toBe(false)
  })

  it('takes another run of the hub for one that has changed', () => {
    const seen = new ChangesSeen(1000)
    expect(seen.isMissed('pulse', 20)).toBe(true)
    expect(seen.isMissed('surveys', 21)).toBe(false)
  })

  it('finds none where the hub does not count', () => {
    const seen = new ChangesSeen(7)
    expect(seen.isMissed('surveys', JSON.parse('{}').changes)).toBe(false)
  })
})
