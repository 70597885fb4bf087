import { BUFFER_SETS, type Recipe } from '../../../calibration/index.ts'

const GUM = 'uncertainty: JCGM 100:2008 (GUM), effective degrees of freedom by G.4.1'

const LAW: Readonly<Record<Recipe['kind'], string>> = {
  'ph-electrode': 'pH: Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200 (Nernst slope, buffers)',
  'wetness-span': 'relative wetness: straight line between air-dry and saturated soil; not a water content',
  'water-content-fit': 'water content by drying: ISO 11461 (105 °C to constant mass); least squares',
  permittivity: 'water content: Topp, Davis & Annan 1980, Water Resour. Res. 16(3), 574–582',
  'light-counts':
    'light: the sensor’s data sheet; side-by-side factor as ratio of sums, Cochran 1977, Sampling Techniques, §6.1',
  'light-power': 'light: straight line through log signal and log lux, least squares',
  'light-span': 'light: straight line, least squares (JCGM 100:2008, H.3)',
  'digital-temperature': 'temperature: DS18B20 data sheet; ice point 0 °C',
  thermistor: 'temperature: Steinhart & Hart 1968, Deep-Sea Res. 15, 497–503',
  platinum: 'temperature: IEC 60751',
  'cup-anemometer': 'wind: linear cup response, offset + slope × frequency',
  line: 'straight line, least squares (JCGM 100:2008, H.3)',
  'already-a-value': 'the board’s own value',
}

/** Where the formulas and reference values of a record come from. */
export function sourcesOf(recipe: Recipe): string[] {
  const sets =
    recipe.kind === 'ph-electrode' ? new Set(recipe.points.map(({ bufferSet }) => bufferSet)) : new Set()
  const buffers = BUFFER_SETS.filter(({ set }) => sets.has(set)).map(
    ({ set, source }) => `buffer set “${set}”: ${source}`,
  )
  return [LAW[recipe.kind], ...buffers, GUM]
}
