import { metresText } from '../../format.ts'

/** Whole metres once there are ten of them. */
export function walkedText(metres: number): string {
  return metresText(metres >= 10 ? Math.round(metres) : metres)
}
