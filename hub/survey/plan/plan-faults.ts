/** What keeps a plan from being drawn, at its place: a path such as `plan[0].count`. */
export interface PlanFault {
  path: string
  message: string
}

export type SayFault = (field: string, message: string) => void

/** Metres to a tenth of a millimetre: sums of decimal fractions end in dust. */
export function tidyMetres(metres: number): number {
  return Number(metres.toFixed(4))
}

/** How many whole sides go into a length; 10 m holds 100 frames of 0.1 m, although 10 ÷ 0.1 is a little less in binary. */
export function framesAlong(lengthMetres: number, sideMetres: number): number {
  return Math.floor(lengthMetres / sideMetres + 1e-9)
}

/** Fields of a rule that must be more than 0, or at least 0; also when they come from a program that has not looked. */
export function checkMetres(
  fields: Readonly<Record<string, number | undefined>>,
  least: 'zero' | 'above zero',
  fault: SayFault,
): boolean {
  let isFine = true
  for (const [field, metres] of Object.entries(fields)) {
    if (metres === undefined) continue
    const isWrong = !Number.isFinite(metres) || metres < 0 || (least === 'above zero' && metres === 0)
    if (!isWrong) continue
    isFine = false
    fault(
      field,
      Number.isFinite(metres) && metres < 0
        ? `${metres} m is negative; distances count from the zero mark or the corner`
        : least === 'above zero'
          ? `should be more than 0 m`
          : `should be a distance in metres`,
    )
  }
  return isFine
}

export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}
