/** The rank a name says by itself: “sp.”, “subsp.”, “var.”. Two words alone may be an everyday name, so they say none. */
export function rankSaid(name: string): string {
  if (/\b(?:subsp|ssp)\./i.test(name)) return 'subspecies'
  if (/\bvar\./i.test(name)) return 'variety'
  return /\bspp?\.?$/i.test(name) ? 'genus' : ''
}
