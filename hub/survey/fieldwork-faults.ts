import { isInPlot, isOnTransect } from '../contract/quadrat-place.ts'
import type { SurveyFile } from '../contract/survey.ts'
import { TYPED_BOARD } from '../contract/wire-names.ts'

type Fault = (path: string, message: string) => void

/** Quadrats that lie where there is no transect or plot, or do not fit. */
export function findQuadratFaults(survey: SurveyFile, fault: Fault): void {
  const transects = new Map(survey.transects.map((transect) => [transect.id, transect]))
  const plots = new Map((survey.plots ?? []).map((plot) => [plot.id, plot]))
  for (const [index, quadrat] of survey.quadrats.entries()) {
    const at = `quadrats[${index}]`
    if (isOnTransect(quadrat)) {
      const transect = transects.get(quadrat.transect)
      if (!transect) fault(`${at}.transect`, `there is no transect "${quadrat.transect}"`)
      else if (quadrat.distanceMetres > transect.lengthMetres)
        fault(
          `${at}.distanceMetres`,
          `${quadrat.distanceMetres} m is past the end of transect "${transect.id}" (${transect.lengthMetres} m)`,
        )
    } else if (isInPlot(quadrat)) {
      const plot = plots.get(quadrat.plot)
      if (!plot) fault(`${at}.plot`, `there is no plot "${quadrat.plot}"`)
      else if (
        isPast(quadrat.xMetres + quadrat.sideMetres, plot.widthMetres) ||
        isPast(quadrat.yMetres + quadrat.sideMetres, plot.heightMetres)
      )
        fault(
          at,
          `quadrat "${quadrat.label}" (side ${quadrat.sideMetres} m, corner at ${quadrat.xMetres} m, ${quadrat.yMetres} m) does not fit into plot "${plot.id}" of ${plot.widthMetres} m by ${plot.heightMetres} m`,
        )
    }
  }
}

/** A meter without a connection is on no real board, and nothing else is on the board of such meters. */
export function findTypedFaults(survey: SurveyFile, fault: Fault): void {
  for (const [index, { id, board, isTyped }] of survey.probes.entries())
    if ((board === TYPED_BOARD) !== (isTyped === true))
      fault(
        `probes[${index}].board`,
        isTyped
          ? `"${id}" is read by eye, so its board is "${TYPED_BOARD}"`
          : `the board "${TYPED_BOARD}" is kept for meters that are read by eye (isTyped)`,
      )
}

/** A tenth of a millimetre: distances come from sums of decimal fractions. */
function isPast(metres: number, limitMetres: number): boolean {
  return metres > limitMetres + 1e-4
}

/** What else refers to quadrats, probes and boards: the walk, groups, what is wanted, traps, clock corrections. */
export function findFieldworkFaults(survey: SurveyFile, fault: Fault): void {
  const labels = new Set(survey.quadrats.map((quadrat) => quadrat.label))
  const boards = new Set([
    ...survey.boards.map((board) => board.name),
    ...survey.probes.map((probe) => probe.board),
  ])
  const known = (path: string, label: string) => {
    if (!labels.has(label)) fault(path, `there is no quadrat "${label}"`)
  }
  const once = (list: string, names: readonly string[], what: string) => {
    for (const [index, name] of names.entries())
      if (names.indexOf(name) < index) fault(`${list}[${index}]`, `${what} "${name}" is there twice`)
  }
  once(
    'plots',
    (survey.plots ?? []).map(({ id }) => id),
    'plot',
  )
  once('walk', survey.walk ?? [], 'quadrat')
  for (const [index, label] of (survey.walk ?? []).entries()) known(`walk[${index}]`, label)
  once(
    'groups',
    (survey.groups ?? []).map(({ label }) => label),
    'group',
  )
  for (const [index, group] of (survey.groups ?? []).entries())
    for (const [place, label] of group.quadrats.entries()) known(`groups[${index}].quadrats[${place}]`, label)
  for (const [index, wanted] of (survey.wanted ?? []).entries())
    for (const [place, label] of (wanted.quadrats ?? []).entries())
      known(`wanted[${index}].quadrats[${place}]`, label)
  once(
    'traps',
    (survey.traps ?? []).map(({ id }) => id),
    'trap',
  )
  for (const [index, trap] of (survey.traps ?? []).entries()) {
    known(`traps[${index}].quadrat`, trap.quadrat)
    let before = Date.parse(trap.setAt)
    for (const [place, check] of trap.checks.entries()) {
      if (Date.parse(check.at) < before)
        fault(`traps[${index}].checks[${place}].at`, `${check.at} is before what happened before it`)
      before = Math.max(before, Date.parse(check.at))
      if (check.isClosed && place + 1 < trap.checks.length)
        fault(`traps[${index}].checks[${place}].isClosed`, 'it is checked again after it was closed')
    }
  }
  for (const [index, correction] of (survey.clockCorrections ?? []).entries()) {
    const path = `clockCorrections[${index}]`
    if (!boards.has(correction.board)) fault(`${path}.board`, `there is no board "${correction.board}"`)
    if (Date.parse(correction.to) <= Date.parse(correction.from))
      fault(`${path}.to`, `${correction.to} is not after ${correction.from}`)
    for (const [earlier, other] of (survey.clockCorrections ?? []).slice(0, index).entries())
      if (
        other.board === correction.board &&
        Date.parse(other.from) < Date.parse(correction.to) &&
        Date.parse(correction.from) < Date.parse(other.to)
      )
        fault(path, `it overlaps clockCorrections[${earlier}] of the same board`)
  }
}
