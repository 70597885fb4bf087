/** A number as people type it, with a point or a comma; null when it is none. */
export function readNumber(text: string): number | null {
  const trimmed = text.trim().replace(',', '.')
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(trimmed)) return null
  return Number(trimmed)
}

/** Numbers set apart by spaces or semicolons, or by commas followed by a space; null for what is not a number. */
export function readNumbers(text: string): (number | null)[] {
  return text
    .split(/[\s;]+|,\s+/)
    .filter((part) => part !== '')
    .map((part) => readNumber(part.replace(/,$/, '')))
}
