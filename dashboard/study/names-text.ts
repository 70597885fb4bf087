/** Names of factors or species as one text of an address: a bar sets them apart, because commas are part of some. */
export function namesText(names: readonly string[]): string {
  return names.join('|')
}
