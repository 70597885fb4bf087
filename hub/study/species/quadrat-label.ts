/**
 * What a quadrat label comes down to when the ways of typing it are taken away: case, spaces and punctuation,
 * “quadrat”, “quad” or “q” before it, zeros before a number, full-width digits, the apostrophe that a download puts
 * before formulas. `Q 04`, `quadrat-4` and `４` are all `4`; `A12` stays `a12`.
 */
export function quadratKey(label: string): string {
  const plain = label
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '')
  return plain.replace(/^(?:quadrat|quad|q)(?=.)/u, '').replace(/(?<!\d)0+(?=\d)/g, '')
}

/** The same key with letters that look like digits as digits: O as 0, l and I as 1, S as 5. For suggestions only. */
export function lookAlikeKey(label: string): string {
  return quadratKey(label).replace(/[oils]/g, (letter) => (letter === 'o' ? '0' : letter === 's' ? '5' : '1'))
}

/** `05` is a number only: it is matched, and listed, because it may just as well be a row number. */
export function isNumberOnly(label: string): boolean {
  return /^\s*\d+\s*$/.test(label.normalize('NFKC'))
}

/** True of `Q1`, `quadrat 3`, `plot 12`, `7`, `A4`, `3.5`: what stands at the head of a row or column of quadrats. */
export function looksLikeQuadrat(text: string): boolean {
  const plain = text.normalize('NFKC').trim().toLowerCase()
  return /^(?:(?:quadrat|quad|q|plot|site|station|sample|relev[eé])[\s._#-]*(?:no\.?\s*)?)?[a-z]?[\s._-]*[\doils]*\d[\doils]*(?:[.,]\d+)?\s*[a-z]?$/.test(
    plain,
  )
}
