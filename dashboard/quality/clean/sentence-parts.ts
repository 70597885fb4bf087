import type { CleanCount } from '../../../hub/contract/clean.ts'

export interface SentencePart {
  text: string
  /** a reason that can be opened; null: words between */
  reason: { reason: string; n: number } | null
}

/** The hub's sentence, cut where it names a reason with its number. Together the parts are the sentence. */
export function sentenceParts({ sentence, leftOut }: CleanCount): SentencePart[] {
  const parts: SentencePart[] = []
  let done = 0
  const colon = sentence.indexOf('; left out: ')
  for (const each of leftOut) {
    const text = `${each.n.toLocaleString('en-GB')} ${each.reason}`
    const at = sentence.indexOf(text, Math.max(done, colon))
    if (colon === -1 || at === -1) continue
    if (at > done) parts.push({ text: sentence.slice(done, at), reason: null })
    parts.push({ text, reason: each })
    done = at + text.length
  }
  if (done < sentence.length) parts.push({ text: sentence.slice(done), reason: null })
  return parts
}
