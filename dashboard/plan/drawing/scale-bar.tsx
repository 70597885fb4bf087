import { metresText } from '../../format.ts'
import { scaleBarMetres } from './scale-bar-metres.ts'

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
