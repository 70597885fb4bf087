import { accumulation } from './accumulation.ts'
import { accumulationOfStudy } from './accumulation-of-study.ts'
import { biplotOfStudy } from './biplot-of-study.ts'
import { boxPlots } from './box-plots.ts'
import { boxesOfStudy } from './boxes-of-study.ts'
import { completenessMatrix } from './completeness-matrix.ts'
import { completenessOfStudy } from './completeness-of-study.ts'
import { emptyPicture } from './empty-picture.ts'
import { ordinationBiplot } from './ordination-biplot.ts'
import type { PictureMaterial, PictureWish } from './picture-material.ts'
import { PICTURES, type PictureName } from './picture-names.ts'
import { profileOfStudy } from './profile-of-study.ts'
import { scatter } from './scatter.ts'
import { scatterMatrix } from './scatter-matrix.ts'
import { matrixOfStudy, scatterOfStudy } from './scatter-of-study.ts'
import { transectProfile } from './transect-profile.ts'

export const DEFAULT_WIDTH_PX = 800
export const NARROWEST_PX = 320
export const WIDEST_PX = 2400

/**
 * A picture of a study as SVG text that stands by itself. What cannot be drawn yet is a picture that says so.
 * @param id  begins the ids of its fills, so that several pictures may stand in one page
 */
export function drawPicture(
  name: PictureName,
  material: PictureMaterial,
  wish: Pick<PictureWish, 'widthPx' | 'transect' | 'species'> = {},
  id = name as string,
): string {
  const widthPx = wish.widthPx ?? DEFAULT_WIDTH_PX
  const draw = <T extends object>(picture: T | string, drawn: (picture: T) => string) =>
    typeof picture === 'string' ? emptyPicture(PICTURES[name], picture, widthPx) : drawn(picture)
  switch (name) {
    case 'transect-profile':
      return draw(profileOfStudy(material, wish), (picture) => transectProfile(picture, widthPx, id))
    case 'scatter':
      return draw(scatterOfStudy(material), (picture) => scatter(picture, widthPx))
    case 'scatter-matrix':
      return draw(matrixOfStudy(material, widthPx), (picture) => scatterMatrix(picture, widthPx))
    case 'box-plots':
      return draw(boxesOfStudy(material), (picture) => boxPlots(picture, widthPx))
    case 'completeness':
      return draw(completenessOfStudy(material), (picture) => completenessMatrix(picture, widthPx, id))
    case 'ordination':
      return draw(biplotOfStudy(material), (picture) => ordinationBiplot(picture, widthPx))
    case 'accumulation':
      return draw(accumulationOfStudy(material), (picture) => accumulation(picture, widthPx))
  }
}

/** Whether it has something to show. */
export function canBeDrawn(name: PictureName, material: PictureMaterial): boolean {
  const made = {
    'transect-profile': () => profileOfStudy(material, {}),
    scatter: () => scatterOfStudy(material),
    'scatter-matrix': () => matrixOfStudy(material, DEFAULT_WIDTH_PX),
    'box-plots': () => boxesOfStudy(material),
    completeness: () => completenessOfStudy(material),
    ordination: () => biplotOfStudy(material),
    accumulation: () => accumulationOfStudy(material),
  }[name]()
  return typeof made !== 'string'
}
