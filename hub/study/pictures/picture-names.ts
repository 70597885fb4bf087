/** Pictures that can be asked for by name, and what each shows. */
export const PICTURES = {
  'transect-profile': 'factors above and kites of the species below, on one distance axis',
  scatter: 'one factor beside one species',
  'scatter-matrix': 'every factor beside every species',
  'box-plots': 'factors by zone',
  completeness: 'what was measured where',
  ordination: 'all factors together on two axes',
  accumulation: 'running means: have enough quadrats been measured?',
} as const

export type PictureName = keyof typeof PICTURES

export function isPictureName(name: string): name is PictureName {
  return Object.hasOwn(PICTURES, name)
}
