import { isRefusal } from '../../../calibration/index.ts'
import type { CleanCount } from '../../contract/clean.ts'
import type { SpotValue } from '../../contract/spot.ts'
import type { ExposedCatch, StudyJoin, StudySheet } from '../../contract/study.ts'
import type { Calibration, Probe, SurveyFile } from '../../contract/survey.ts'
import { countClean } from '../../export/clean-count.ts'
import type { SqliteReader } from '../../store/sqlite-reader.ts'
import { spotValues } from '../../survey/spot-values.ts'
import type { Timelines } from '../../survey/timeline.ts'
import { referenceValues } from '../clean-series.ts'
import { type PictureMaterial, pictureMaterial } from '../pictures/picture-material.ts'
import { type Description, describeValues } from '../statistics/describe.ts'
import { Study } from '../study.ts'

/** How a report is to be made. */
export interface ReportWish {
  window: 'all' | 'common'
  withHydrogenIons: boolean
  /** what the class wanted to find out, in its own words */
  aim: string | null
  /** false: coefficients, tests and verdicts stay hidden until the class has said what it expects */
  areVerdictsShown: boolean
  coordinates: 'exact' | 'blurred' | 'none'
  /** a last page with every text that people have typed, for a teacher to read before sharing */
  isForChecking: boolean
  factors?: readonly string[]
  species?: readonly string[]
}

/** A probe that stood for the whole survey, in numbers. */
export interface ReferenceFacts {
  probe: string
  unit: string
  described: Description
  fromMs: number
  toMs: number
}

/** Everything a report is written from. */
export interface ReportFacts {
  survey: SurveyFile
  wish: ReportWish
  material: PictureMaterial
  clean: CleanCount
  spots: SpotValue[]
  sheets: StudySheet[]
  species: StudySheet | null
  join: StudyJoin | null
  catches: ExposedCatch[]
  openSky: ReferenceFacts | null
  windMast: ReferenceFacts | null
  /** those whose readings are in the report, with the probes they belong to */
  probes: Probe[]
  calibrations: Calibration[]
  version: string
}

export interface ReportSource {
  reader: SqliteReader
  timelines: Timelines
  survey: SurveyFile
  version: string
}

/** Redraws of each correlation within its uncertainties: enough to tell 90 % from 95 %. */
const REDRAWS = 200

/** Gathers what a report says. @throws HubError when a factor or species asked for is not there */
export async function reportFacts(source: ReportSource, wish: ReportWish): Promise<ReportFacts> {
  const { reader, timelines, survey, version } = source
  const study = new Study(reader, timelines, survey)
  const material = await pictureMaterial(study, {
    window: wish.window,
    withHydrogenIons: wish.withHydrogenIons,
    isVerdictHeldBack: !wish.areVerdictsShown,
    redraws: wish.areVerdictsShown ? REDRAWS : 0,
    ...(wish.factors === undefined ? {} : { factors: wish.factors }),
    ...(wish.species === undefined ? {} : { species: wish.species }),
  })
  const sheets = await study.sheets()
  const species = (await study.species())?.sheet ?? null
  const { summaries } = material.summary
  const isReference = new Set(survey.probes.filter(({ reference }) => reference).map(({ id }) => id))
  const usedProbes = new Set([...isReference, ...summaries.flatMap(({ probes }) => probes)])
  const usedCalibrations = new Set(summaries.flatMap(({ calibrations }) => calibrations))
  return {
    survey,
    wish,
    material,
    clean: countClean(reader, timelines, survey.id),
    spots: spotValues(reader, timelines, survey.id),
    sheets,
    species,
    join: species ? await study.join({ window: wish.window, withHydrogenIons: wish.withHydrogenIons }) : null,
    catches: await study.catches(),
    openSky: describeReference(referenceValues(reader, timelines, survey.id, 'open-sky')),
    windMast: describeReference(referenceValues(reader, timelines, survey.id, 'wind-mast')),
    probes: survey.probes.filter(({ id }) => usedProbes.has(id)),
    calibrations: timelines.surveys
      .flatMap(({ calibrations }) => calibrations)
      .filter(
        ({ id, probe, withdrawn }, index, all) =>
          all.findIndex((other) => other.id === id && other.probe === probe) === index &&
          (usedCalibrations.has(id) || (isReference.has(probe) && !withdrawn)),
      ),
    version,
  }
}

function describeReference(values: ReturnType<typeof referenceValues>): ReferenceFacts | null {
  if (!values) return null
  const described = describeValues(values.value)
  if (isRefusal(described)) return null
  const { probe, unit, timeMs } = values
  return { probe, unit, described, fromMs: timeMs[0]!, toMs: timeMs.at(-1)! }
}
