export type PictureName =
  | 'transect-profile'
  | 'scatter'
  | 'scatter-matrix'
  | 'box-plots'
  | 'completeness'
  | 'ordination'
  | 'accumulation'

export interface PictureKind {
  name: PictureName
  title: string
  /** what it shows, and how to read it */
  text: string
  /** what may be chosen for it */
  takesFactors: boolean
  takesSpecies: boolean
  needsSpecies: boolean
}

/** The pictures of a study, in the order to be looked at. */
export const pictureKinds: readonly PictureKind[] = [
  {
    name: 'transect-profile',
    title: 'Along the transect',
    text: 'Factors above, each species below as a kite: as wide as its cover there. A kite that breaks was not recorded at that place.',
    takesFactors: true,
    takesSpecies: true,
    needsSpecies: false,
  },
  {
    name: 'scatter',
    title: 'One factor beside one species',
    text: 'A point for each quadrat, with its 95 % interval. Look at the shape first: a hump is no straight line.',
    takesFactors: true,
    takesSpecies: true,
    needsSpecies: true,
  },
  {
    name: 'scatter-matrix',
    title: 'Everything beside everything',
    text: 'Small scatter plots of the chosen factors and species. Factors that go together cannot be told apart by their effect.',
    takesFactors: true,
    takesSpecies: true,
    needsSpecies: false,
  },
  {
    name: 'box-plots',
    title: 'Boxes by zone',
    text: 'The box holds the middle half of the quadrats of a zone, the line in it the median, every point is drawn.',
    takesFactors: true,
    takesSpecies: false,
    needsSpecies: false,
  },
  {
    name: 'completeness',
    title: 'What is there, and what is missing',
    text: 'Quadrats against factors and species: an empty square was never measured or never recorded.',
    takesFactors: false,
    takesSpecies: false,
    needsSpecies: false,
  },
  {
    name: 'accumulation',
    title: 'Are these quadrats enough?',
    text: 'The mean with every further quadrat. A line that has come to rest says that more quadrats would change little.',
    takesFactors: true,
    takesSpecies: true,
    needsSpecies: false,
  },
]
