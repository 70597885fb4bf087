/** A number as it is written for people: so many significant digits, no zeros behind. */
export function significant(number: number, digits: number): number {
  return Number.isFinite(number) ? Number(number.toPrecision(digits)) : number
}
