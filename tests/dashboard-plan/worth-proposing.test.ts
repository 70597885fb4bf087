import { describe, expect, it } from 'vitest'
import { worthProposing } from '../../dashboard/plan/walk/worth-proposing.ts'
import { adviseWalk } from '../../hub/survey/plan/walk.ts'

const inPlot = (label: string, xMetres: number, yMetres: number) => ({
  label,
  plot: 'P1',
  xMetres,
  yMetres,
  sideMetres: 0.5,
  gridDivisions: 10,
})
const alongTape = (label: string, distanceMetres: number) => ({
  label,
  transect: 'T1',
  distanceMetres,
  sideMetres: 0.5,
  gridDivisions: 10,
})

/** Takes what is proposed until nothing is. @returns how often something was */
function proposals(quadrats: Parameters<typeof adviseWalk>[0]): number {
  let order = quadrats
  for (let taken = 0; ; taken++) {
    const proposed = worthProposing(adviseWalk(order))
    if (!proposed || taken > 5) return taken
    order = proposed.labels.map((label) => quadrats.find((quadrat) => quadrat.label === label)!)
  }
}

describe('a proposed order', () => {
  it('is proposed once: taken, it is not proposed again, also where several quadrats are equally near', () => {
    const tied = Array.from({ length: 40 }, (_, index) =>
      inPlot(`R${index}`, (index * 37) % 11, (index * index * 13) % 7),
    )
    expect(proposals(tied)).toBe(1)
    const tape = Array.from({ length: 10 }, (_, index) => alongTape(`Q${index}`, 1 + 2 * index))
    expect(proposals(tape)).toBe(1)
  })
  it('is not proposed for a saving nobody notices, and is for one of more than a twentieth', () => {
    const walk = (metres: number, strongest = 0) => ({
      words: '',
      labels: [String(metres)],
      metres,
      strongest,
    })
    const advice = { warnings: [], others: [] }
    expect(worthProposing({ ...advice, planned: walk(100), proposed: walk(95) })).toBeNull()
    expect(worthProposing({ ...advice, planned: walk(100), proposed: walk(94) })?.metres).toBe(94)
  })
  it('is proposed, longer or not, for an order that follows the tape', () => {
    const walk = (metres: number, strongest: number) => ({
      words: '',
      labels: [String(metres)],
      metres,
      strongest,
    })
    const advice = { warnings: [], others: [] }
    expect(worthProposing({ ...advice, planned: walk(10, 0.4), proposed: walk(20, 0.1) })?.metres).toBe(20)
    expect(worthProposing({ ...advice, planned: walk(10, 0.3), proposed: walk(20, 0.1) })).toBeNull()
    expect(
      worthProposing({ planned: walk(10, 0.3), proposed: walk(20, 0.1), others: [], warnings: ['follows'] })
        ?.metres,
    ).toBe(20)
  })
})
