import type {
  SpeciesAnswers,
  SpeciesFault,
  SpeciesMeasure,
  SpeciesQuestion,
  SpeciesRecord,
  SpeciesRepair,
  SpeciesTable,
} from '../../contract/species.ts'
import { checkSums } from './check-sums.ts'
import { type ReadValue, readValue } from './read-value.ts'
import type { SettledPair } from './settle-twice.ts'
import type { TableNames } from './table-names.ts'
import { classNote, notSurveyedNote, traceNote } from './table-notes.ts'
import { tableQuestions } from './table-questions.ts'
import { valueSettings } from './value-settings.ts'

type Judged = Pick<
  SpeciesTable,
  'blanks' | 'quadrats' | 'records' | 'ground' | 'notRecorded' | 'repairs' | 'faults' | 'notes'
> & { questions: SpeciesQuestion[] }

/**
 * What every pair of quadrat and taxon says. Zero is absent; a blank is what the class says it is, once for the table;
 * a quadrat without a single value was not surveyed, whatever blanks mean.
 */
export function judgePairs(
  pairs: readonly SettledPair[],
  names: TableNames,
  measure: SpeciesMeasure,
  answers: SpeciesAnswers,
): Judged {
  const settings = valueSettings(pairs, answers)
  const read = pairs.map((pair) => ({
    pair,
    values: pair.entries.map(({ cell }) => readValue(cell, measure, settings)),
  }))
  const surveyed = new Set(
    read.flatMap(({ pair, values }) =>
      values.length === 0 || values.some(({ state }) => state !== 'blank' && state !== 'not-recorded')
        ? [pair.quadrat]
        : [],
    ),
  )
  const blanks =
    answers['blank'] === 'absent' || answers['blank'] === 'not-recorded' ? answers['blank'] : null
  const records: SpeciesRecord[] = []
  const faults: SpeciesFault[] = []
  const repairs: SpeciesRepair[] = []
  const seen = new Set<string>()
  const asked = { blank: 0, 'out-of': 0, cross: 0, formula: [] as string[] }
  const push = (
    pair: Pick<SettledPair, 'quadrat' | 'taxon'>,
    value: number,
    present: boolean,
    asWritten: string,
    cell: string,
  ) => records.push({ quadrat: pair.quadrat, taxon: pair.taxon, measure, value, asWritten, cell, present })
  for (const { pair, values } of read) {
    seen.add(JSON.stringify([pair.quadrat, pair.taxon]))
    const good: { value: number; present: boolean; place: number }[] = []
    for (const [place, value] of values.entries()) {
      const { address, cell } = pair.entries[place]!
      if (value.state === 'value') good.push({ ...value, place })
      if (value.state === 'value' && value.repair !== undefined)
        repairs.push({ cell: address, from: cell.text, to: String(value.value), why: value.repair })
      if (value.state === 'fault') faults.push({ cell: address, written: cell.text, message: value.message })
      if (value.state === 'ask' && value.about === 'formula') asked.formula.push(address)
      else if (value.state === 'ask') asked[value.about]++
    }
    const first = pair.entries[good[0]?.place ?? 0]
    if (good.length > 0)
      push(
        pair,
        good.reduce((sum, { value }) => sum + value, 0) / good.length,
        good.some(({ present }) => present),
        good.map(({ place }) => pair.entries[place]!.cell.text).join(' | '),
        first!.address,
      )
    else if (isBlankPair(values) && surveyed.has(pair.quadrat)) {
      asked.blank++
      if (blanks === 'absent') push(pair, 0, false, first!.cell.text, first!.address)
    }
  }
  for (const { label } of names.quadrats)
    for (const { name } of names.taxa) {
      if (seen.has(JSON.stringify([label, name])) || !surveyed.has(label)) continue
      asked.blank++
      if (blanks === 'absent') push({ quadrat: label, taxon: name }, 0, false, '', '')
    }
  const quadrats = names.quadrats.map(({ label, cell }) => ({ label, cell, isSurveyed: surveyed.has(label) }))
  const sums = checkSums(records, quadrats, measure)
  const usable = records.filter(({ quadrat }) => !sums.impossible.has(quadrat))
  const groundNames = new Set(pairs.filter(({ isGround }) => isGround).map(({ taxon }) => taxon))
  const kept = usable.filter(({ taxon }) => !groundNames.has(taxon))
  return {
    blanks: asked.blank > 0 ? blanks : null,
    quadrats,
    records: kept,
    ground: usable.filter(({ taxon }) => groundNames.has(taxon)),
    notRecorded: pairsWithout(kept, names, pairs),
    questions: tableQuestions(asked, answers),
    repairs,
    faults: [...faults, ...sums.faults],
    notes: [
      ...notSurveyedNote(quadrats),
      ...sums.notes,
      ...traceNote(repairs, settings),
      ...classNote(measure),
    ],
  }
}

function isBlankPair(values: readonly ReadValue[]): boolean {
  return values.length > 0 && values.every(({ state }) => state === 'blank')
}

function pairsWithout(records: readonly SpeciesRecord[], names: TableNames, pairs: readonly SettledPair[]) {
  const key = (quadrat: string, taxon: string) => JSON.stringify([quadrat, taxon])
  const recorded = new Set(records.map(({ quadrat, taxon }) => key(quadrat, taxon)))
  const cells = new Map(
    pairs.map(({ quadrat, taxon, entries }) => [key(quadrat, taxon), entries[0]?.address ?? '']),
  )
  return names.quadrats.flatMap(({ label }) =>
    names.taxa
      .filter(({ name }) => !recorded.has(key(label, name)))
      .map(({ name }) => ({ quadrat: label, taxon: name, cell: cells.get(key(label, name)) ?? '' })),
  )
}
