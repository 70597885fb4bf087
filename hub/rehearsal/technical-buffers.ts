export const bufferNames = ['buffer-4', 'buffer-7', 'buffer-10'] as const
export type BufferName = (typeof bufferNames)[number]

/**
 * pH of the technical buffers 4, 7 and 10 by temperature, as printed on such bottles and in process-pH manuals:
 * °C, then pH of each.
 */
const rows: readonly (readonly [celsius: number, ...ph: [number, number, number]])[] = [
  [10, 4.0, 7.06, 10.18],
  [15, 4.0, 7.04, 10.12],
  [20, 4.0, 7.02, 10.06],
  [25, 4.0, 7.0, 10.01],
  [30, 4.01, 6.99, 9.97],
]

/** Outside of this the bottles say nothing. */
export const bufferCelsius = { low: 10, high: 30 } as const

/**
 * pH of a fresh buffer, on the straight line between two rows of the table.
 * @param celsius  10–30 °C
 * @throws RangeError outside
 */
export function technicalBufferPh(buffer: BufferName, celsius: number): number {
  const column = bufferNames.indexOf(buffer) + 1
  for (const [at, row] of rows.entries()) {
    const next = rows[at + 1]
    if (!next || celsius < row[0] || celsius > next[0]) continue
    const part = (celsius - row[0]) / (next[0] - row[0])
    return (1 - part) * (row[column] ?? 0) + part * (next[column] ?? 0)
  }
  throw new RangeError(`${celsius} °C: the buffers are tabled from 10 to 30 °C`)
}
