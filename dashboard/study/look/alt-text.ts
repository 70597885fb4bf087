import type { PictureKind } from './picture-list.ts'

/** What a picture shows, in words: its kind, and the factors and species it was made of. */
export function altText(
  kind: Pick<PictureKind, 'title' | 'takesFactors' | 'takesSpecies'>,
  factors: readonly string[],
  species: readonly string[],
): string {
  const of = [...(kind.takesFactors ? factors : []), ...(kind.takesSpecies ? species : [])]
  const what = of.length === 0 ? '' : ` of ${of.join(', ')}`
  return `${kind.title}${what}. The same numbers are in the tables of this chapter.`
}
