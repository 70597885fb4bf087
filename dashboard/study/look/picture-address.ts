import { ofSurvey } from '../../client.ts'
import { namesText } from '../names-text.ts'
import type { StudyWish } from '../study-wish.ts'
import type { PictureName } from './picture-list.ts'

export interface PictureWish {
  factors: readonly string[]
  species: readonly string[]
  widthPx: number
  window: StudyWish['window']
  /** coefficients stay hidden until the class has said what it expects */
  isHeldBack: boolean
}

/** Where the hub draws a picture. No names chosen: all of them. */
export function pictureAddress(survey: string, name: PictureName, wish: PictureWish): string {
  const query = new URLSearchParams({ width: String(wish.widthPx), window: wish.window })
  if (wish.isHeldBack) query.set('heldBack', 'yes')
  if (wish.factors.length > 0) query.set('factors', namesText(wish.factors))
  if (wish.species.length > 0) query.set('species', namesText(wish.species))
  return `${ofSurvey(survey)}/pictures/${name}.svg?${query}`
}
