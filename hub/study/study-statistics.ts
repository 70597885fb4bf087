import { isRefusal } from '../../calibration/index.ts'
import type { SpeciesRecord, SpeciesTable } from '../contract/species.ts'
import type { QuadratDiversity, StudyPair, StudyStatistics, StudySummary } from '../contract/study.ts'
import { type Factor, factorsOf } from './factors.ts'
import { labelAnswersOf } from './label-answers.ts'
import { type LabelMatches, matchLabels } from './species/match-labels.ts'
import { spearmanInterval } from './statistics/correlation-interval.ts'
import { diversityOfCounts, diversityOfCover } from './statistics/diversity.ts'
import { frequency } from './statistics/frequency.ts'
import { holm } from './statistics/holm.ts'
import { findHump } from './statistics/hump.ts'
import { meanCover } from './statistics/mean-cover.ts'
import { pearson } from './statistics/pearson.ts'
import { redrawRobustness } from './statistics/redraw-robustness.ts'
import { spearman } from './statistics/spearman.ts'
import { wordsForCorrelation } from './statistics/words-for-correlation.ts'
import { ordinationOf } from './study-ordination.ts'
import { compareZones } from './zones.ts'

export interface StatisticsWish {
  /** how often each correlation is drawn anew within its uncertainties; 0 leaves that out */
  redraws?: number
  /** names of factors and species to be looked at; all when not given */
  factors?: readonly string[]
  taxa?: readonly string[]
  /** until the class has written down what it expects */
  isVerdictHeldBack?: boolean
}

/** Measures whose values are shares of ground, 0–100 %. */
const COVERS = ['cover-percent', 'grid-hits', 'touches', 'braun-blanquet', 'domin']

/** Do the plants follow the factors? Every factor beside every species, corrected for how many tests that is. */
export function studyStatistics(
  summary: StudySummary,
  table: SpeciesTable | null,
  labels: LabelMatches | null,
  wish: StatisticsWish = {},
): StudyStatistics {
  const factors = factorsOf(summary).filter(({ name }) => wish.factors?.includes(name) ?? true)
  const species = table && labels ? speciesByQuadrat(table, labels) : new Map<string, SpeciesOfTaxon>()
  const chosen = [...species].filter(([taxon]) => wish.taxa?.includes(taxon) ?? true)
  const bare = factors.flatMap((factor) =>
    chosen.map(([taxon, of]) => correlate(factor, taxon, of, table!.measure)),
  )
  const corrected = bare.length === 0 ? null : holm(bare.map(({ pair }) => pair.p))
  const adjusted = corrected === null || isRefusal(corrected) ? null : corrected
  const areNeighbours = summary.quadrats.some(({ distanceMetres }) => distanceMetres !== null)
  return {
    pairs: bare.map((each, index) =>
      finishPair(
        each,
        adjusted?.tests[index]?.adjustedP ?? null,
        adjusted?.testCount ?? 0,
        areNeighbours,
        wish,
      ),
    ),
    tests: adjusted?.testCount ?? 0,
    expectedFalseAlarms: adjusted?.expectedFalseAlarms ?? 0,
    diversity: table && labels ? diversityOf(table, labels) : [],
    frequency: table && labels ? frequenciesOf(table, labels) : [],
    zones: compareZones(summary, factors),
    ...ordinationOf(factors),
  }
}

/** Values of one taxon by the survey's quadrats; a quadrat where it was not recorded is not there. */
type SpeciesOfTaxon = Map<string, number>

function speciesByQuadrat(table: SpeciesTable, labels: LabelMatches): Map<string, SpeciesOfTaxon> {
  const surveyLabel = new Map(labels.matched.map(({ survey, typed }) => [typed, survey]))
  const byTaxon = new Map<string, SpeciesOfTaxon>(table.taxa.map(({ name }) => [name, new Map()]))
  for (const { quadrat, taxon, value } of table.records) {
    const label = surveyLabel.get(quadrat)
    if (label !== undefined) byTaxon.get(taxon)?.set(label, value)
  }
  return byTaxon
}

interface BarePair {
  pair: StudyPair
  factor: Factor
  hump: 'hump' | 'dip' | null
  rhoWithTime: number | null
}

function correlate(
  factor: Factor,
  taxon: string,
  of: SpeciesOfTaxon,
  measure: StudyPair['measure'],
): BarePair {
  const points = [...factor.values].flatMap(([quadrat, { value, expanded }]) => {
    const y = of.get(quadrat)
    return y === undefined ? [] : [{ quadrat, x: value, y, expanded }]
  })
  const x = points.map((point) => point.x)
  const y = points.map((point) => point.y)
  const ranks = points.length === 0 ? null : spearman(x, y)
  const known = ranks === null || isRefusal(ranks) ? null : ranks
  const straight = points.length < 3 ? null : pearson(x, y)
  const interval = known?.rho == null ? null : spearmanInterval(known.rho, points.length)
  const hump = points.length < 7 ? null : findHump(x, y)
  const times = points.map(({ quadrat }) => factor.values.get(quadrat)!.atMs)
  const withTime = points.length < 5 ? null : spearman(times, x)
  // quadrats that logged at the same time have no order in time
  const isAtOnce = Math.max(...times) - Math.min(...times) < 60_000
  const pair: StudyPair = {
    factor: factor.name,
    factorUnit: factor.unit,
    species: taxon,
    measure,
    n: points.length,
    points,
    rho: known?.rho ?? null,
    p: known && points.length >= 5 ? known.p : null,
    adjustedP: null,
    method: known?.method ?? 'not defined: no quadrat has both',
    rhoLow: interval?.low ?? null,
    rhoHigh: interval?.high ?? null,
    // ranks of classes are ranks, not measures: no straight line through them
    pearson: straight === null || isRefusal(straight) || isOrdinal(measure) ? null : straight.r,
    pearsonP: straight === null || isRefusal(straight) || isOrdinal(measure) ? null : straight.p,
    significantShare: null,
    result: null,
    verdict: null,
    cautions: [],
  }
  return {
    pair,
    factor,
    hump: hump === null || isRefusal(hump) ? null : hump,
    rhoWithTime: withTime === null || isRefusal(withTime) || isAtOnce ? null : withTime.rho,
  }
}

function isOrdinal(measure: StudyPair['measure']): boolean {
  return measure === 'braun-blanquet' || measure === 'domin'
}

function finishPair(
  { pair, factor, hump, rhoWithTime }: BarePair,
  adjustedP: number | null,
  testCount: number,
  areNeighbours: boolean,
  wish: StatisticsWish,
): StudyPair {
  const words = wordsForCorrelation({
    factor: pair.factor,
    species: pair.species,
    rho: pair.rho,
    p: pair.p,
    n: pair.n,
    method: pair.method,
    adjustedP,
    hump,
    rhoWithTime,
    areNeighbours,
    testCount,
    isVerdictHeldBack: wish.isVerdictHeldBack ?? false,
  })
  const isHidden = wish.isVerdictHeldBack === true
  return {
    ...pair,
    ...(isHidden
      ? { rho: null, p: null, rhoLow: null, rhoHigh: null, pearson: null, pearsonP: null }
      : { adjustedP, significantShare: robustness(pair, factor, wish.redraws ?? 0) }),
    result: words.result,
    verdict: words.verdict,
    cautions: words.cautions.map(({ text }) => text),
  }
}

function robustness(pair: StudyPair, factor: Factor, redraws: number): number | null {
  if (redraws === 0 || pair.rho === null || pair.p === null) return null
  const of = (quadrat: string) => factor.values.get(quadrat)!
  const answer = redrawRobustness({
    x: pair.points.map(({ x }) => x),
    y: pair.points.map(({ y }) => y),
    independentStandardUncertainty: pair.points.map(({ quadrat }) => of(quadrat).ownUncertainty),
    sharedStandardUncertainty: Math.max(...pair.points.map(({ quadrat }) => of(quadrat).sharedUncertainty)),
    redraws,
  })
  return isRefusal(answer) ? null : answer.significantShare
}

function diversityOf(table: SpeciesTable, labels: LabelMatches): QuadratDiversity[] {
  const surveyLabel = new Map(labels.matched.map(({ survey, typed }) => [typed, survey]))
  const byQuadrat = new Map<string, number[]>()
  for (const { quadrat, value } of table.records) {
    const label = surveyLabel.get(quadrat)
    if (label === undefined) continue
    byQuadrat.set(label, [...(byQuadrat.get(label) ?? []), value])
  }
  return [...byQuadrat].flatMap(([quadrat, values]): QuadratDiversity[] => {
    const answer = table.measure === 'count' ? diversityOfCounts(values) : diversityOfCover(values)
    if (isRefusal(answer)) return []
    const { richness, simpson, simpsonForm, shannon, evenness } = answer
    // of presence only the number of species means anything
    return table.measure === 'presence'
      ? [{ quadrat, richness, simpson: null, simpsonForm: 'not of presence', shannon: null, evenness: null }]
      : [{ quadrat, richness, simpson, simpsonForm, shannon, evenness }]
  })
}

function frequenciesOf(table: SpeciesTable, labels: LabelMatches): StudyStatistics['frequency'] {
  // what was typed for a quadrat that the survey does not have is in the list of what did not match
  const matched = new Set(labels.matched.map(({ typed }) => typed))
  const byTaxon = new Map<string, SpeciesRecord[]>()
  for (const record of table.records.filter(({ quadrat }) => matched.has(quadrat)))
    byTaxon.set(record.taxon, [...(byTaxon.get(record.taxon) ?? []), record])
  return [...byTaxon].flatMap(([taxon, records]) => {
    const present = records.filter((record) => record.present).length
    const often = frequency(present, records.length)
    if (isRefusal(often)) return []
    const cover = COVERS.includes(table.measure) ? meanCover(records.map(({ value }) => value)) : null
    const known = cover === null || isRefusal(cover) ? null : cover
    return [
      {
        taxon,
        present,
        recorded: records.length,
        percent: often.percentFrequency,
        low: often.lowPercent,
        high: often.highPercent,
        meanCover: known?.meanCoverPercent ?? null,
        coverLow: known?.meanCoverLowPercent ?? null,
        coverHigh: known?.meanCoverHighPercent ?? null,
      },
    ]
  })
}

/** How the typed labels of a table meet the quadrats of the survey, with the answers given. */
export function labelsOf(
  summary: StudySummary,
  table: SpeciesTable,
  answers: Readonly<Record<string, string>>,
): LabelMatches {
  return matchLabels(
    summary.quadrats.map(({ label }) => label),
    table.quadrats.map(({ label }) => label),
    labelAnswersOf(answers),
  )
}
