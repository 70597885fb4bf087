import { type Fitted, fitCalibration, isRefusal } from '../../calibration/index.ts'
import type { Spot } from '../contract/spot.ts'
import type { Calibration, Decision, Probe, Quadrat, SurveyFile } from '../contract/survey.ts'

export interface CalibrationInForce {
  id: string
  fitted: Fitted
  /** the entered points as text: two calibrations differ when this does */
  recipeText: string
}

/** A span of time in which a channel means one thing: one probe, at one place, under one calibration. */
export interface Segment {
  fromMs: number
  /** exclusive */
  toMs: number
  survey: SurveyFile
  probe: Probe
  /** null: in transit, lifted, or never placed */
  quadrat: Quadrat | null
  /** the insertion of a carried meter that this is; its quadrat goes before any placement */
  spot: { id: string; replicate: number; isSteady: boolean } | null
  calibration: CalibrationInForce | null
  /** what a person has decided about these readings; of several, the last one made */
  decision: Decision | null
}

/** What every channel meant at every time, worked out from the surveys. Built anew when a survey changes. */
export class Timelines {
  readonly surveys: readonly SurveyFile[]
  readonly spots: readonly Spot[]
  /** by board and channel */
  readonly #segments = new Map<string, Map<string, Segment[]>>()

  constructor(surveys: readonly SurveyFile[], spots: readonly Spot[] = []) {
    this.surveys = surveys
    this.spots = spots
    const heldBy = spotsByProbe(spots)
    const calibrations = calibrationsInForce(surveys)
    const seats = new Map<string, Seat[]>()
    for (const survey of surveys) {
      const placements = new Map<string, SurveyFile['placements']>()
      for (const placement of survey.placements) {
        const others = placements.get(placement.probe)
        if (others) others.push(placement)
        else placements.set(placement.probe, [placement])
      }
      const quadrats = new Map(survey.quadrats.map((quadrat) => [quadrat.label, quadrat]))
      for (const probe of survey.probes) {
        const key = `${probe.board}/${probe.channel}`
        const decisions = (survey.decisions ?? []).filter(
          (each) => each.probe === probe.id && !each.takenBack,
        )
        const seat = {
          survey,
          probe,
          decisions,
          placements: spansOf(placements.get(probe.id) ?? [], quadrats),
          held: heldSpans(heldBy.get(`${survey.id}\n${probe.id}`) ?? [], quadrats),
        }
        const others = seats.get(key)
        if (others) others.push(seat)
        else seats.set(key, [seat])
      }
    }
    for (const seat of seats.values()) {
      const { board, channel } = seat[0]!.probe
      const ofBoard = this.#segments.get(board) ?? new Map<string, Segment[]>()
      this.#segments.set(board, ofBoard.set(channel, cutSegments(seat, calibrations)))
    }
  }

  /** Segments of a channel in time order, without overlap; times no probe was connected have none. */
  of(board: string, channel: string): readonly Segment[] {
    return this.#segments.get(board)?.get(channel) ?? []
  }

  at(board: string, channel: string, timeMs: number): Segment | null {
    return spanAt(this.of(board, channel), timeMs) ?? null
  }

  /** every channel that a probe was ever connected to */
  channels(): { board: string; channel: string }[] {
    return [...this.#segments].flatMap(([board, channels]) =>
      [...channels.keys()].map((channel) => ({ board, channel })),
    )
  }
}

/** A probe on a channel, as one survey knows it, with the spans in which it stood somewhere. */
interface Seat {
  survey: SurveyFile
  probe: Probe
  placements: PlacedSpan[]
  held: HeldSpan[]
  decisions: Decision[]
}

function covers({ from, to }: Decision, timeMs: number): boolean {
  return Date.parse(from) <= timeMs && timeMs < Date.parse(to)
}

interface PlacedSpan extends Span {
  quadrat: Quadrat | null
}

interface HeldSpan extends PlacedSpan {
  spot: NonNullable<Segment['spot']>
}

function spotsByProbe(spots: readonly Spot[]): Map<string, Spot[]> {
  const byProbe = new Map<string, Spot[]>()
  for (const spot of spots) {
    if (spot.isTakenBack) continue
    const key = `${spot.survey}\n${spot.probe}`
    const others = byProbe.get(key)
    if (others) others.push(spot)
    else byProbe.set(key, [spot])
  }
  return byProbe
}

/** The insertions of one carried meter in time order; of two that overlap, the later one is cut short. */
function heldSpans(spots: readonly Spot[], quadrats: ReadonlyMap<string, Quadrat>): HeldSpan[] {
  const spans = spots.flatMap(({ id, quadrat, replicates }) =>
    replicates.map(({ from, to, isSteady }, replicate) => ({
      fromMs: Date.parse(from),
      toMs: Date.parse(to),
      quadrat: quadrats.get(quadrat) ?? null,
      spot: { id, replicate, isSteady },
    })),
  )
  spans.sort((a, b) => a.fromMs - b.fromMs)
  let reachedMs = -Infinity
  return spans.flatMap((span) => {
    const fromMs = Math.max(span.fromMs, reachedMs)
    if (span.toMs <= fromMs) return []
    reachedMs = span.toMs
    return [{ ...span, fromMs }]
  })
}

interface Dated {
  fromMs: number
  calibration: CalibrationInForce
}

/** Per probe, in order of `validFrom`; withdrawn and failed ones never come into force: the one before stays. */
function calibrationsInForce(surveys: readonly SurveyFile[]): Map<string, Dated[]> {
  const byProbe = new Map<string, Map<string, Dated>>()
  for (const survey of surveys)
    for (const calibration of survey.calibrations) {
      const inForce = bringIntoForce(calibration)
      if (!inForce) continue
      const list = byProbe.get(calibration.probe) ?? new Map<string, Dated>()
      list.set(calibration.id, { fromMs: Date.parse(calibration.validFrom), calibration: inForce })
      byProbe.set(calibration.probe, list)
    }
  return new Map(
    [...byProbe].map(([probe, list]) => [probe, [...list.values()].sort((a, b) => a.fromMs - b.fromMs)]),
  )
}

/** Fits are remembered by what was entered: a survey is read anew with every change to it. */
const FITS_AT_MOST = 2000
const fits = new Map<string, Fitted | null>()

function bringIntoForce(calibration: Calibration): CalibrationInForce | null {
  if (calibration.withdrawn) return null
  const recipeText = JSON.stringify(calibration.recipe)
  let fitted = fits.get(recipeText)
  if (fitted === undefined) {
    const fit = fitCalibration(calibration.recipe)
    fitted = isRefusal(fit) || fit.verdict === 'fail' ? null : fit
    if (fits.size >= FITS_AT_MOST) fits.clear()
    fits.set(recipeText, fitted)
  }
  return fitted && { id: calibration.id, fitted, recipeText }
}

function cutSegments(seat: readonly Seat[], calibrations: Map<string, Dated[]>): Segment[] {
  const edges = new Set<number>([-Infinity, Infinity])
  const candidates = seat.map(({ survey, probe, placements, held, decisions }) => {
    const connected = {
      fromMs: probe.connectedFrom ? Date.parse(probe.connectedFrom) : -Infinity,
      toMs: probe.connectedTo ? Date.parse(probe.connectedTo) : Infinity,
    }
    const dated = calibrations.get(probe.id) ?? []
    for (const span of [connected, ...placements, ...held]) edges.add(span.fromMs).add(span.toMs)
    for (const { fromMs } of dated) edges.add(fromMs)
    for (const { from, to } of decisions) edges.add(Date.parse(from)).add(Date.parse(to))
    return { survey, probe, connected, placements, held, dated, decisions }
  })
  const times = [...edges].sort((a, b) => a - b)
  const segments: Segment[] = []
  for (let index = 0; index + 1 < times.length; index++) {
    const fromMs = times[index]!
    const toMs = times[index + 1]!
    const here = candidates.filter(({ connected }) => connected.fromMs <= fromMs && fromMs < connected.toMs)
    if (here.length === 0) continue
    const placed = here.map((candidate) => ({
      ...candidate,
      spot: spanAt(candidate.held, fromMs),
      placement: spanAt(candidate.placements, fromMs),
    }))
    // a probe that several surveys know belongs to the one that has it placed at that time
    const chosen =
      placed.find(({ spot }) => spot) ?? placed.find(({ placement }) => placement?.quadrat) ?? placed.at(-1)!
    const calibration = chosen.dated.findLast((dated) => dated.fromMs <= fromMs)?.calibration ?? null
    segments.push({
      fromMs,
      toMs,
      survey: chosen.survey,
      probe: chosen.probe,
      quadrat: (chosen.spot ?? chosen.placement)?.quadrat ?? null,
      spot: chosen.spot?.spot ?? null,
      calibration,
      decision: chosen.decisions.findLast((each) => covers(each, fromMs)) ?? null,
    })
  }
  return segments
}

/** Placements of one probe as spans; one without an end lasts until the next begins. */
function spansOf(
  placements: readonly SurveyFile['placements'][number][],
  quadrats: ReadonlyMap<string, Quadrat>,
): PlacedSpan[] {
  const inOrder = placements.toSorted((a, b) => Date.parse(a.from) - Date.parse(b.from))
  return inOrder.map((placement, index) => {
    const next = inOrder[index + 1]
    const end = placement.to ? Date.parse(placement.to) : Infinity
    return {
      fromMs: Date.parse(placement.from),
      toMs: next ? Math.min(end, Date.parse(next.from)) : end,
      quadrat: placement.quadrat === null ? null : (quadrats.get(placement.quadrat) ?? null),
    }
  })
}

export interface Span {
  fromMs: number
  toMs: number
}

/** Where the values of a channel would come out differently after a change from `before` to `after`. */
export function changedSpans(before: readonly Segment[], after: readonly Segment[]): Span[] {
  const edges = [...new Set([...before, ...after].flatMap(({ fromMs, toMs }) => [fromMs, toMs]))].sort(
    (a, b) => a - b,
  )
  const spans: Span[] = []
  for (let index = 0; index + 1 < edges.length; index++) {
    const fromMs = edges[index]!
    const toMs = edges[index + 1]!
    if (meaning(spanAt(before, fromMs)) === meaning(spanAt(after, fromMs))) continue
    const last = spans.at(-1)
    if (last?.toMs === fromMs) last.toMs = toMs
    else spans.push({ fromMs, toMs })
  }
  return spans
}

/** Of spans in time order without overlap, the one that holds a moment. */
function spanAt<S extends Span>(spans: readonly S[], timeMs: number): S | undefined {
  let low = 0
  let high = spans.length - 1
  while (low <= high) {
    const middle = (low + high) >> 1
    const span = spans[middle]!
    if (timeMs < span.fromMs) high = middle - 1
    else if (timeMs >= span.toMs) low = middle + 1
    else return span
  }
  return undefined
}

const meanings = new WeakMap<Segment, string>()

/** Everything of a segment that its values and flags depend on. A move to another quadrat is not among it. */
function meaning(segment: Segment | undefined): string {
  if (!segment) return ''
  const known = meanings.get(segment)
  if (known !== undefined) return known
  const { probe, calibration } = segment
  const text = JSON.stringify([
    probe.id,
    probe.quantity,
    probe.temperatureChannel,
    calibration?.id,
    calibration?.recipeText,
  ])
  meanings.set(segment, text)
  return text
}
