import { describe, expect, it } from 'vitest'
import { planBoards } from '../../hub/rehearsal/board-plan.ts'
import { faultsFrom } from '../../hub/rehearsal/fault-names.ts'
import { nextInstant, type Sample, sampleBoard } from '../../hub/rehearsal/sampling.ts'
import { chanceOf } from '../../hub/rehearsal/seeded-chance.ts'
import { skyOf } from '../../hub/rehearsal/sky.ts'
import { standingFaults } from '../../hub/rehearsal/standing-faults.ts'

const intervalSeconds = 5

function sampler(seed: number, startMs: number, faults = '') {
  const chance = chanceOf(seed)
  const sky = skyOf(chance)
  const plans = planBoards(8, true)
  const standing = standingFaults(faultsFrom(faults), chance, sky, plans, intervalSeconds)
  return (board: number, k: number): Sample =>
    sampleBoard(
      chance,
      sky,
      standing,
      plans[board]!,
      startMs,
      startMs + k * intervalSeconds * 1000,
      intervalSeconds,
    )
}

const places = Array.from({ length: 8 * 50 }, (_, index) => ({
  board: index % 8,
  k: 1 + Math.floor(index / 8),
}))
const recordsOf = (sample: Sample) => sample.records

describe('the seed', () => {
  it('gives the same signals and truths whatever the order of asking and whenever the start', () => {
    const one = sampler(7, 1_780_000_000_000)
    const other = sampler(7, 1_790_000_123_456)
    const forwards = places.map(({ board, k }) => recordsOf(one(board, k)))
    const backwards = [...places].reverse().map(({ board, k }) => recordsOf(other(board, k)))
    expect(backwards.reverse()).toEqual(forwards)
  })

  it('gives another class for another seed', () => {
    const one = sampler(7, 0)
    const other = sampler(8, 0)
    const differing = places.filter(
      ({ board, k }) =>
        JSON.stringify(recordsOf(one(board, k))) !== JSON.stringify(recordsOf(other(board, k))),
    )
    expect(differing.length).toBe(places.length)
  })

  it('moves nothing but the faulty signals when faults are asked for', () => {
    const healthy = sampler(7, 0)
    const faulty = sampler(7, 0, 'dry-bulb,saturated')
    const touched = new Set<string>()
    for (const { board, k } of places) {
      healthy(board, k).records.forEach((record, at) => {
        const found = faulty(board, k).records[at]!
        if (found.fault) touched.add(found.fault)
        else expect(found).toEqual(record)
      })
    }
    expect([...touched].sort()).toEqual(['dry-bulb', 'saturated'])
  })
})

describe('chance', () => {
  it('is even: mean and spread of 20 000 draws lie where they should', () => {
    const chance = chanceOf(3)
    const draws = Array.from({ length: 20_000 }, (_, index) => chance.uniform('evenness', index))
    const mean = draws.reduce((sum, draw) => sum + draw, 0) / draws.length
    const variance = draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / draws.length
    // four standard errors of a uniform variable's mean: 4 × sqrt(1/12/20000)
    expect(Math.abs(mean - 0.5)).toBeLessThan(0.0082)
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(0.003)
    expect(Math.min(...draws)).toBeGreaterThanOrEqual(0)
    expect(Math.max(...draws)).toBeLessThan(1)
  })

  it('is smooth where it should be: no jump at whole positions', () => {
    const chance = chanceOf(3)
    for (let position = 1; position < 50; position += 1) {
      const before = chance.smooth('wave', position - 1e-6)
      expect(Math.abs(before - chance.smooth('wave', position))).toBeLessThan(1e-5)
    }
  })
})

describe('the grid of moments', () => {
  it('lies at start + k · interval, however late one asks', () => {
    expect(nextInstant(1000, 5000, 1000)).toBe(6000)
    expect(nextInstant(1000, 5000, 5999)).toBe(6000)
    expect(nextInstant(1000, 5000, 6000)).toBe(11_000)
    let at = 1000
    for (let k = 1; k <= 1000; k += 1) {
      at = nextInstant(1000, 300, at)
      expect(at).toBe(1000 + k * 300)
    }
  })
})
