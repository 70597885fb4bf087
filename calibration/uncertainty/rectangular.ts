/** √3: a limit of ±a with every value in between equally likely has standard uncertainty a/√3 (JCGM 100:2008 §4.3.7). */
const ROOT_THREE = Math.sqrt(3)

/** Standard uncertainty of "somewhere within ± this". */
export function fromHalfWidth(halfWidth: number): number {
  return Math.abs(halfWidth) / ROOT_THREE
}

/** Standard uncertainty of a display or converter that moves in steps of this (JCGM 100:2008 §F.2.2.1). */
export function fromStep(step: number): number {
  return fromHalfWidth(step / 2)
}
