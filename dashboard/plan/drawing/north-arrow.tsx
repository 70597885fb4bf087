/** @param turned  degrees clockwise from straight up on the drawing */
export function NorthArrow({ x, y, turned }: { x: number; y: number; turned: number }) {
  return (
    <g class="north-arrow" transform={`translate(${x} ${y})`} data-north={turned}>
      <path d="M0 13V-13M0-13l-5 9M0-13l5 9" transform={`rotate(${turned})`} />
      <text x={Math.sin((turned * Math.PI) / 180) * 21} y={-Math.cos((turned * Math.PI) / 180) * 21 + 4}>
        N
      </text>
    </g>
  )
}
