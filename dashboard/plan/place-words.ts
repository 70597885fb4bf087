import type { Quadrat } from '../../hub/contract/survey.ts'

const fieldWords: Record<string, string> = {
  title: 'Title',
  name: 'name',
  to: 'Last day',
  lengthMetres: 'length',
  widthMetres: 'width',
  heightMetres: 'height',
  bearingDegrees: 'bearing',
  markSpacingMetres: 'mark spacing',
  sideMetres: 'side',
  count: 'how many',
  prefix: 'labels',
  firstMetres: 'first',
  everyMetres: 'every',
  lastMetres: 'none past',
  distanceMetres: 'distance',
  perPart: 'in each part',
  gridDivisions: 'grid',
}

const listWords: Record<string, string> = {
  transects: 'Tape',
  plots: 'Plot',
  plan: 'Rule',
  groups: 'Group',
  wanted: 'Quantity',
}

/** A place in the plan in words: `plan[0].count` is “Rule 1, how many”. */
export function placeWords(path: string, quadrats: readonly Quadrat[]): string {
  const quadrat = /^quadrats\[(\d+)\]/.exec(path)?.[1]
  if (quadrat !== undefined) return quadrats[Number(quadrat)]?.label ?? 'A quadrat'
  const [, list, number] = /^([a-z]+)\[(\d+)\]/.exec(path) ?? []
  const last = path.split('.').at(-1) ?? ''
  const field = /^[a-z]+\[/i.test(last) ? '' : (fieldWords[last] ?? last)
  if (list === undefined) return path.startsWith('site') ? `Site, ${field}` : (fieldWords[path] ?? path)
  const zone = /zones\[(\d+)\]/.exec(path)?.[1]
  const where = `${listWords[list] ?? list} ${Number(number) + 1}${zone === undefined ? '' : `, zone ${Number(zone) + 1}`}`
  return field === '' ? where : `${where}, ${field}`
}
