import type { SpeciesAnswers, SpeciesRepair } from '../../contract/species.ts'
import { quadratKey } from './quadrat-label.ts'
import type { TableEntry } from './spread-table.ts'
import { isGenusOnly, nearNames, taxonKey, taxonKind } from './taxon-name.ts'

export interface NamedEntry extends TableEntry {
  isGround: boolean
}

export interface TableNames {
  entries: NamedEntry[]
  quadrats: { label: string; cell: string }[]
  taxa: { name: string; cell: string }[]
  repairs: SpeciesRepair[]
  notes: string[]
}

/**
 * One name for each quadrat and each taxon, the first one typed; other spellings of the same (case, spaces) are repairs.
 * Near spellings are told, and merged only by an answer `same:Brambel` → `Bramble`.
 */
export function nameTable(entries: readonly TableEntry[], answers: SpeciesAnswers): TableNames {
  const quadrats = new FirstNames(quadratKey)
  const taxa = new FirstNames(taxonKey)
  const ground = new FirstNames(taxonKey)
  const repairs = new Map<string, SpeciesRepair>()
  const named = entries.map((entry): NamedEntry => {
    const isGround = taxonKind(entry.taxon) === 'ground'
    const meant = answers[`same:${entry.taxon}`] ?? entry.taxon
    const quadrat = quadrats.nameOf(entry.quadrat, entry.quadratCell)
    const taxon = (isGround ? ground : taxa).nameOf(meant, entry.taxonCell)
    if (quadrat !== entry.quadrat)
      repairs.set(entry.quadratCell, {
        cell: entry.quadratCell,
        from: entry.quadrat,
        to: quadrat,
        why: 'another way of typing the same label',
      })
    if (taxon !== entry.taxon)
      repairs.set(entry.taxonCell, {
        cell: entry.taxonCell,
        from: entry.taxon,
        to: taxon,
        why:
          meant === entry.taxon
            ? 'another way of typing the same name'
            : 'the same taxon, as confirmed by hand',
      })
    return { ...entry, quadrat, taxon, isGround }
  })
  const names = taxa.all().map(({ name }) => name)
  const genusOnly = names.filter(isGenusOnly)
  return {
    entries: named,
    quadrats: quadrats.all().map(({ name, cell }) => ({ label: name, cell })),
    taxa: taxa.all(),
    repairs: [...repairs.values()],
    notes: [
      ...ground
        .all()
        .map(({ name, cell }) => `“${name}” (${cell}) is ground, not a species: kept apart from the taxa.`),
      ...(genusOnly.length === 0 ? [] : [`Known to the genus only, kept as typed: ${genusOnly.join(', ')}.`]),
      ...nearNames(names).map(
        ([one, other]) =>
          `“${one}” and “${other}” are spelled almost alike. If they are one taxon, correct the sheet; they are not merged.`,
      ),
    ],
  }
}

class FirstNames {
  readonly #keyOf: (name: string) => string
  readonly #first = new Map<string, { name: string; cell: string }>()
  constructor(keyOf: (name: string) => string) {
    this.#keyOf = keyOf
  }
  nameOf(name: string, cell: string): string {
    const key = this.#keyOf(name)
    const known = this.#first.get(key) ?? { name, cell }
    this.#first.set(key, known)
    return known.name
  }
  all(): { name: string; cell: string }[] {
    return [...this.#first.values()]
  }
}
