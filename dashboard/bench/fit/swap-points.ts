import type { KeptPoint } from './draft.ts'

/** What belongs to the beaker, not to the signal read in it. */
const OF_THE_BEAKER = ['bufferSet', 'buffer', 'ph', 'lot', 'expires'] as const

/** The first and the last fitted point with their beakers exchanged: the signals stay where they were read. */
export function swapBeakers(points: readonly KeptPoint[]): readonly KeptPoint[] {
  const fitted = points.filter(({ role }) => role === 'fit')
  const [first, last] = [fitted[0], fitted.at(-1)]
  if (!first || !last || first === last) return points
  return points.map((point) => {
    if (point === first) return withBeaker(point, last)
    return point === last ? withBeaker(point, first) : point
  })
}

function withBeaker(point: KeptPoint, other: KeptPoint): KeptPoint {
  const names: readonly string[] = OF_THE_BEAKER
  const own = Object.entries(point.fields).filter(([name]) => !names.includes(name))
  const taken = Object.entries(other.fields).filter(([name]) => names.includes(name))
  return { ...point, fields: Object.fromEntries([...own, ...taken]) }
}
