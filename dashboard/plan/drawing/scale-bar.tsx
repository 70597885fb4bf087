import { metresText } from '../../format.ts'

/** The longest of the usual lengths that fits into `most` px. */
export function scaleBarMetres(pixelsPerMetre: number, most: number): number {
  const lengths = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000]
  return lengths.findLast((metres) => metres * pixelsPerMetre <= most) ?? 0.1
}

/** A bar of a known length, its left end at (x, y). */
export function ScaleBar({ x, y, pixelsPerMetre }: { x: number; y: number; pixelsPerMetre: number }) {
  const metres = scaleBarMetres(pixelsPerMetre, 120)
  const long = metres * pixelsPerMetre
  return (
    <g class="scale-bar">
      <path d={`M${x} ${y - 5}v10M${x} ${y}h${long}M${x + long} ${y - 5}v10`} />
      <text x={x + long + 7} y={y + 4}>
        {metresText(metres)}
      </text>
    </g>
  )
}
