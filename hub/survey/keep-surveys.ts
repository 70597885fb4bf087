import { isDeepStrictEqual } from 'node:util'
import type { Spot } from '../contract/spot.ts'
import type { ColumnMap, SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import type { ClockShift, ClockWork, SpanOfChannel, StoreWriter } from '../store/store.ts'
import { boardsReclocked, clockShifts } from './clock-corrections.ts'
import { readSurveyFile, type SurveyFault } from './read-survey-file.ts'
import { SurveyRefused } from './survey-refused.ts'
import { changedSpans, Timelines } from './timeline.ts'

/** The surveys of a data folder and what they make of every channel. Every change is a new revision. */
export class SurveyKeeper {
  readonly #writer: StoreWriter
  readonly #nowMs: () => number
  #timelines: Timelines
  #columns = new Map<string, ColumnMap>()
  #clockShift: ClockShift = () => 0

  constructor(writer: StoreWriter, nowMs: () => number) {
    this.#writer = writer
    this.#nowMs = nowMs
    this.#timelines = new Timelines([])
    this.#use(new Timelines(writer.surveys(), writer.spots()))
  }

  get timelines(): Timelines {
    return this.#timelines
  }

  /** by how much what a board sends is to be moved in time */
  get clockShift(): ClockShift {
    return this.#clockShift
  }

  /** for moving what boards have sent already */
  get clockWork(): ClockWork {
    return {
      shiftOf: this.#clockShift,
      isCompensated: (board, channel) => temperatureChannelsOf(this.#timelines, board, channel).size > 0,
    }
  }

  columnsOf = (board: string): ColumnMap | undefined => this.#columns.get(board)

  /**
   * Spot readings in the file that are not known yet are kept beside the survey; known ones stay as they are.
   * @returns false when nothing is different from what is kept
   */
  save(file: unknown, why: string): boolean {
    const read = readSurveyFile(file)
    if (read.survey === null) throw new SurveyRefused(read.faults)
    const { spots = [], ...survey } = read.survey
    const stray = spots.flatMap(({ survey: id }, index) =>
      id === survey.id ? [] : [{ path: `spots[${index}].survey`, message: `it is of survey "${id}"` }],
    )
    if (stray.length > 0) throw new SurveyRefused(stray)
    const isChanged = this.#saveAlone(survey, why)
    const added = spots.filter((spot) => this.#writer.addSpot(spot))
    if (added.length > 0)
      this.#use(new Timelines(this.#timelines.surveys, [...this.#timelines.spots, ...added]))
    return isChanged || added.length > 0
  }

  #saveAlone(survey: SurveyFile, why: string): boolean {
    const others = this.#timelines.surveys.filter((kept) => kept.id !== survey.id)
    const differing = findDiffering(survey, others)
    if (differing.length > 0) throw new SurveyRefused(differing)
    const present = this.#timelines.surveys.find((kept) => kept.id === survey.id)
    if (isDeepStrictEqual(present, survey)) return false
    const after = new Timelines(
      [...others, survey].sort((a, b) => (a.id < b.id ? -1 : 1)),
      this.#timelines.spots,
    )
    const review = isDeepStrictEqual(present?.quality, survey.quality) ? [] : allSpansOf(survey)
    const reclock = boardsReclocked(present?.clockCorrections ?? [], survey.clockCorrections ?? [])
    const recompute = spansToRecompute(this.#timelines, after)
    this.#writer.saveSurvey(survey, this.#nowMs(), why, recompute, review, reclock)
    this.#use(after)
    return true
  }

  change(id: string, why: string, change: (survey: SurveyFile) => SurveyFile): void {
    this.save(change(this.named(id)), why)
  }

  named(id: string): SurveyFile {
    const survey = this.#timelines.surveys.find((kept) => kept.id === id)
    if (!survey) throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${id}" here.`)
    return survey
  }

  /** Goes back to the revision before; that is a revision too, so doing it twice changes nothing. */
  undo(id: string): string {
    const before = this.#writer.revisionBefore(id)
    if (!before) throw new HubError('E_NOT_FOUND', `There is no change to survey "${id}" to take back.`)
    this.save(before.survey, `taken back: ${before.why.replace(/^taken back: /, '')}`)
    return before.why.replace(/^taken back: /, '')
  }

  /** Where a spot reading counts is read from it at once; values and flags do not depend on it. */
  keepSpot(spot: Spot): boolean {
    const isNew = this.#writer.addSpot(spot)
    if (isNew) this.#use(new Timelines(this.#timelines.surveys, [...this.#timelines.spots, spot]))
    return isNew
  }

  replaceSpot(spot: Spot): void {
    this.#writer.replaceSpot(spot)
    const spots = this.#timelines.spots.map((kept) => (kept.id === spot.id ? spot : kept))
    this.#use(new Timelines(this.#timelines.surveys, spots))
  }

  #use(timelines: Timelines): void {
    this.#timelines = timelines
    this.#clockShift = clockShifts(timelines.surveys)
    this.#columns = new Map(
      timelines.surveys.flatMap(({ boards }) =>
        boards.flatMap(({ name, columns }) => (columns ? [[name, columns] as const] : [])),
      ),
    )
  }
}

/** New thresholds concern every reading of the survey's probes. */
function allSpansOf(survey: SurveyFile): SpanOfChannel[] {
  return eachOnce(survey.probes).map((seat) => ({ ...seat, fromMs: -Infinity, toMs: Infinity }))
}

function eachOnce(
  seats: readonly { board: string; channel: string }[],
): { board: string; channel: string }[] {
  const once = new Map(seats.map(({ board, channel }) => [`${board}/${channel}`, { board, channel }]))
  return [...once.values()]
}

/** A probe or calibration that two surveys know must be the same in both. */
function findDiffering(survey: SurveyFile, others: readonly SurveyFile[]): SurveyFault[] {
  const faults: SurveyFault[] = []
  for (const other of others) {
    for (const [index, probe] of survey.probes.entries()) {
      const twin = other.probes.find((candidate) => candidate.id === probe.id)
      if (twin && !isDeepStrictEqual(twin, probe))
        faults.push({
          path: `probes[${index}]`,
          message: `survey "${other.id}" knows probe "${probe.id}" differently`,
        })
    }
    for (const [index, calibration] of survey.calibrations.entries()) {
      const twin = other.calibrations.find((candidate) => candidate.id === calibration.id)
      if (twin && !isDeepStrictEqual(twin, calibration))
        faults.push({
          path: `calibrations[${index}]`,
          message: `survey "${other.id}" has another calibration called "${calibration.id}"`,
        })
    }
  }
  return faults
}

/** Where values come out differently, and in which order to work: a compensated probe after the one it is compensated by. */
function spansToRecompute(before: Timelines, after: Timelines): SpanOfChannel[] {
  const first: SpanOfChannel[] = []
  const last: SpanOfChannel[] = []
  for (const { board, channel } of eachOnce([...before.channels(), ...after.channels()])) {
    const own = changedSpans(before.of(board, channel), after.of(board, channel))
    const temperatureChannels = temperatureChannelsOf(after, board, channel)
    const spans = own.concat(
      ...[...temperatureChannels].map((name) => changedSpans(before.of(board, name), after.of(board, name))),
    )
    const list = temperatureChannels.size > 0 ? last : first
    for (const span of spans) list.push({ board, channel, ...span })
  }
  return [...first, ...last]
}

/** Names of the board's channels whose temperature the channel's values are worked out with. */
function temperatureChannelsOf(timelines: Timelines, board: string, channel: string): Set<string> {
  return new Set(timelines.of(board, channel).flatMap(({ probe }) => probe.temperatureChannel ?? []))
}
