import type { BoxPicture } from './box-plots.ts'
import type { PictureMaterial } from './picture-material.ts'
import { nameWithUnit, shownUnit } from './shown-unit.ts'

/** Factors by zone of the tape or by plot; without zones one group of all; or why there is nothing to draw. */
export function boxesOfStudy({ summary, factors }: PictureMaterial): BoxPicture | string {
  if (factors.length === 0) return 'There are no clean values yet.'
  const hasZones = summary.quadrats.some(({ zone }) => zone !== null)
  return {
    factors: factors.map(({ name, unit, values }) => {
      const { factor: by } = shownUnit(unit)
      const groups = new Map<string, number[]>()
      for (const { label, zone } of summary.quadrats) {
        const value = values.get(label)?.value
        if (value === undefined) continue
        const key = hasZones ? (zone ?? 'no zone') : 'all quadrats'
        groups.set(key, [...(groups.get(key) ?? []), value * by])
      }
      return {
        name: nameWithUnit(name, unit),
        groups: [...groups].map(([zone, of]) => ({ zone, values: of })),
      }
    }),
    notes: [
      'Every ring is a quadrat. Box: from the lower to the upper quartile, thick line: median, whiskers: to the last value within 1.5 times the height of the box. Of fewer than 5 quadrats only the rings.',
    ],
  }
}
