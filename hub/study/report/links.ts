import type { Part } from './report-model.ts'

const part = encodeURIComponent

/** Pages of the notebook, as addresses without a host. */
export const notebook = {
  survey: (survey: string) => `/survey/${part(survey)}`,
  quadrat: (survey: string, label: string) => `/survey/${part(survey)}/quadrat/${part(label)}`,
  plan: (survey: string) => `/survey/${part(survey)}/plan`,
  study: (survey: string) => `/survey/${part(survey)}/study`,
  quality: (survey: string, test?: string) =>
    `/survey/${part(survey)}/quality${test === undefined ? '' : `#${part(test)}`}`,
  decisions: (survey: string) => `/survey/${part(survey)}/decisions`,
  placements: (survey: string) => `/survey/${part(survey)}/field/placements`,
  carry: (survey: string) => `/carry/${part(survey)}`,
  boards: () => '/boards',
  records: (survey: string, probe: string) => `/bench/${part(survey)}/${part(probe)}/records`,
  check: (survey: string, probe: string) => `/bench/${part(survey)}/${part(probe)}/check`,
  record: (survey: string, probe: string, calibration: string) =>
    `/bench/${part(survey)}/${part(probe)}/record/${part(calibration)}`,
}

/** A word with a figure in it, and the unit after a space that does not break. */
const WITH_FIGURE = /[^\s()“”"]*\d[^\s()“”"]*/g
const TRAILING = /[.,:;]+$/

/**
 * Makes every word with a figure in it a link to where the number comes from.
 * @param text  numbers are tied to their unit by a no-break space (U+00A0), and then linked with it
 */
export function linkNumbers(text: string, href: string): Part[] {
  const parts: Part[] = []
  let reached = 0
  // a no-break space is white space for \s: it is held together by a sign that is not, while words are found
  const held = text.replaceAll('\u00a0', '\u2060')
  for (const match of held.matchAll(WITH_FIGURE)) {
    const word = match[0].replace(TRAILING, '')
    if (match.index > reached) parts.push(text.slice(reached, match.index))
    parts.push({ text: text.slice(match.index, match.index + word.length), href })
    reached = match.index + word.length
  }
  if (reached < text.length) parts.push(text.slice(reached))
  return parts
}

/** A sentence of the methods. Its numbers lead to one page, or it is made of parts that lead to several. */
export type Sentence = { text: string; href: string } | { parts: Part[] }

export function partsOfSentence(sentence: Sentence): Part[] {
  return 'parts' in sentence ? sentence.parts : linkNumbers(sentence.text, sentence.href)
}

export function sentencesToParts(sentences: readonly Sentence[]): Part[] {
  return sentences.flatMap((sentence, index) => [...(index === 0 ? [] : [' ']), ...partsOfSentence(sentence)])
}
