import { tag } from './svg-text.ts'

/** Ink that stays apart in grey as well: everything is also told apart by shape, hatch or line. */
export const INK = '#111'
export const PENCIL = '#555'
export const HAIR = '#bbb'
export const WASH = '#f1f1f1'
/** in addition to shape and line, never instead */
export const BLUE = '#1b4f8f'
export const GREEN = '#2c6b3f'

export const SMALL_PX = 11
export const TEXT_PX = 12

export type MarkShape = 'disc' | 'square' | 'triangle' | 'diamond' | 'ring' | 'cross'

/** In the order they are given to zones. */
export const MARK_SHAPES: readonly MarkShape[] = ['disc', 'ring', 'square', 'triangle', 'diamond', 'cross']

/** A point of a graph, about 8 px across. */
export function mark(shape: MarkShape, x: number, y: number, radius = 4): string {
  const outline = { stroke: INK, 'stroke-width': 1.3 }
  const corners = (points: readonly (readonly [number, number])[]) =>
    tag('polygon', {
      points: points.map(([dx, dy]) => `${round(x + dx * radius)},${round(y + dy * radius)}`).join(' '),
      fill: BLUE,
      ...outline,
    })
  switch (shape) {
    case 'disc':
      return tag('circle', { cx: x, cy: y, r: radius, fill: BLUE, ...outline })
    case 'ring':
      return tag('circle', { cx: x, cy: y, r: radius, fill: '#fff', ...outline })
    case 'square':
      return corners([
        [-0.9, -0.9],
        [0.9, -0.9],
        [0.9, 0.9],
        [-0.9, 0.9],
      ])
    case 'triangle':
      return corners([
        [0, -1.1],
        [1.05, 0.8],
        [-1.05, 0.8],
      ])
    case 'diamond':
      return corners([
        [0, -1.2],
        [1.2, 0],
        [0, 1.2],
        [-1.2, 0],
      ])
    case 'cross':
      return tag('path', {
        d: `M${round(x - radius)} ${round(y - radius)}L${round(x + radius)} ${round(y + radius)}M${round(x - radius)} ${round(y + radius)}L${round(x + radius)} ${round(y - radius)}`,
        fill: 'none',
        stroke: INK,
        'stroke-width': 1.8,
      })
  }
}

/** Slanting lines as a fill: `url(#id)`. @param slant  degrees; @param gapPx  between lines */
export function hatch(id: string, slant: number, gapPx: number, ground: string): string {
  return tag(
    'pattern',
    {
      id,
      width: gapPx,
      height: gapPx,
      patternUnits: 'userSpaceOnUse',
      patternTransform: `rotate(${slant})`,
    },
    tag('rect', { x: 0, y: 0, width: gapPx, height: gapPx, fill: ground }),
    tag('path', {
      d: `M0 ${round(gapPx / 2)}L${round(gapPx)} ${round(gapPx / 2)}`,
      stroke: INK,
      'stroke-width': 0.9,
    }),
  )
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}
