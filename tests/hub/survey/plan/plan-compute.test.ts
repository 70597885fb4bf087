import { describe, expect, it } from 'vitest'
import { isRefusal } from '../../../../calibration/index.ts'
import { runComputation } from '../../../../hub/compute/index.ts'

describe('tussock compute plan-draw', () => {
  it('lays 41 quadrats on 20 m at 0.5 m (common practice: L/0.5 + 1)', () => {
    const answer = runComputation('plan-draw', {
      transects: [{ id: 'T1', lengthMetres: 20 }],
      plan: [{ rule: 'along', transect: 'T1', everyMetres: 0.5 }],
    }) as { quadrats: unknown[]; faults: unknown[]; warnings: string[] }
    expect(answer.quadrats).toHaveLength(41)
    expect(answer.faults).toEqual([])
    expect(answer.warnings.join(' ')).toContain('One quadrat at each station is weak')
  })
  it('answers with faults at their place', () => {
    expect(
      runComputation('plan-draw', {
        plots: [{ id: 'P1', widthMetres: 1, heightMetres: 1 }],
        plan: [{ rule: 'random', plot: 'P1', sideMetres: 2, count: 1, seed: 1 }],
      }),
    ).toMatchObject({ quadrats: [], faults: [{ path: 'plan[0].sideMetres' }] })
  })
  it('refuses a rule that cannot be read', () => {
    expect(isRefusal(runComputation('plan-draw', { plan: [{ rule: 'thrown over the shoulder' }] }))).toBe(
      true,
    )
  })
})

describe('tussock compute walk-order', () => {
  it('warns of a sweep and proposes another order, and shares among groups', () => {
    const quadrats = [1, 3, 5, 7, 9, 11, 13, 15].map((distanceMetres, index) => ({
      label: `Q${index + 1}`,
      transect: 'T1',
      distanceMetres,
    }))
    const answer = runComputation('walk-order', { quadrats, groups: ['G1', 'G2'] }) as {
      planned: { metres: number; strongest: number }
      warnings: string[]
      proposed: { metres: number; strongest: number }
      shares: { walk: { labels: string[] } }[]
    }
    expect(answer.planned).toMatchObject({ metres: 14, strongest: 1 })
    expect(answer.warnings).toHaveLength(1)
    expect(answer.proposed.strongest).toBeLessThanOrEqual(0.3)
    expect(answer.shares.map(({ walk }) => walk.labels.length)).toEqual([4, 4])
  })
})
