/** A number as it is typed; `shift` 2 writes 0.05 as 5. Exact: the digits move, nothing is multiplied. */
export function writtenNumber(value: number, shift: 0 | 2): string {
  return shift === 0 ? String(value) : String(Number(shifted(value, shift)))
}

/** With a decimal point or comma; null when it is no number. */
export function readWrittenNumber(text: string, shift: 0 | 2): number | null {
  const plain = text
    .trim()
    .replace(',', '.')
    .replace(/^[\u2212\u2013]/, '-')
  if (!/^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(plain)) return null
  return shift === 0 ? Number(plain) : Number(shifted(plain, -shift))
}

/** Moves the decimal point in the text of a number, so that no rounding of a product gets in. */
function shifted(number: number | string, by: number): string {
  const [digits = '0', exponent = '0'] = String(number).toLowerCase().split('e')
  return `${digits}e${Number(exponent) + by}`
}
