import type { BiplotPicture } from './ordination-biplot.ts'
import { type PictureMaterial, zoneMarks } from './picture-material.ts'

/** The first two axes of the standardised factors; or why there are none. */
export function biplotOfStudy({ statistics, summary }: PictureMaterial): BiplotPicture | string {
  const { ordination, ordinationWhyNot } = statistics
  const [first, second] = ordination?.axes ?? []
  if (!ordination || !first || !second)
    return `No picture of all factors together: ${ordinationWhyNot ?? 'it needs two factors or more.'}`
  const { shapeOf, key } = zoneMarks(summary)
  return {
    shares: [first.share, second.share],
    quadrats: ordination.scores.map(({ quadrat, at }) => ({
      label: quadrat,
      x: at[0]!,
      y: at[1]!,
      shape: shapeOf(quadrat),
    })),
    arrows: ordination.factors.map((factor, index) => ({
      factor,
      x: first.loadings[index]!,
      y: second.loadings[index]!,
    })),
    key,
  }
}
