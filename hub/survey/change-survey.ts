import type { z } from 'zod'
import { rfc3339 } from '../clock.ts'
import type { AddCalibration, AddDecision, PlaceProbe, SetDrift, SetProbeRole } from '../contract/changes.ts'
import type { CheckStandard, Probe, SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import { SurveyRefused } from './survey-refused.ts'

/** Each change takes a survey and gives a new one; the old one is untouched, so that it can be gone back to. */

/**
 * From `from` on the probe is at the quadrat, or in transit, until its next placement begins; those that were made for
 * later stay. What it was doing at that moment ends there.
 */
export function placeProbe(survey: SurveyFile, placing: PlaceProbe): SurveyFile {
  const probe = typeof placing.probe === 'string' ? null : placing.probe
  const id = probe ? probe.id : (placing.probe as string)
  const known = survey.probes.find((candidate) => candidate.id === id)
  if (!known && !probe) throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no probe "${id}".`)
  if (known && probe && (known.board !== probe.board || known.channel !== probe.channel))
    throw new SurveyRefused([
      {
        path: 'probe.id',
        message: `probe "${id}" is on ${known.board}/${known.channel} already, and its readings would change hands; choose another name`,
      },
    ])
  const fromMs = Date.parse(placing.from)
  const next = survey.placements
    .filter((placement) => placement.probe === id && Date.parse(placement.from) > fromMs)
    .sort((a, b) => Date.parse(a.from) - Date.parse(b.from))[0]
  const placements = survey.placements.flatMap((placement) => {
    const startMs = Date.parse(placement.from)
    if (placement.probe !== id || startMs > fromMs) return [placement]
    if (startMs === fromMs) return []
    return [
      placement.to === undefined || Date.parse(placement.to) > fromMs
        ? { ...placement, to: placing.from }
        : placement,
    ]
  })
  return {
    ...survey,
    probes: probe ? replaceOrAdd(survey.probes, probe) : survey.probes,
    boards:
      probe && !probe.isTyped && !survey.boards.some((board) => board.name === probe.board)
        ? [...survey.boards, { name: probe.board }]
        : survey.boards,
    placements: [
      ...placements,
      { probe: id, quadrat: placing.quadrat, from: placing.from, ...(next ? { to: next.from } : {}) },
    ],
  }
}

function replaceOrAdd(probes: readonly z.infer<typeof Probe>[], probe: z.infer<typeof Probe>) {
  return probes.some((known) => known.id === probe.id)
    ? probes.map((known) => (known.id === probe.id ? probe : known))
    : [...probes, probe]
}

export function addCalibration(survey: SurveyFile, calibration: AddCalibration): SurveyFile {
  return { ...survey, calibrations: [...survey.calibrations, calibration] }
}

/** The calibration stays on record, but is no longer in force at any time. */
export function withdrawCalibration(
  survey: SurveyFile,
  id: string,
  reason: string,
  atMs: number,
): SurveyFile {
  const calibration = survey.calibrations.find((candidate) => candidate.id === id)
  if (!calibration) throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no calibration "${id}".`)
  if (calibration.withdrawn)
    throw new HubError(
      'E_BODY',
      `Calibration "${id}" was withdrawn already: ${calibration.withdrawn.reason}.`,
    )
  const withdrawn = { ...calibration, withdrawn: { at: rfc3339(atMs), reason } }
  return {
    ...survey,
    calibrations: survey.calibrations.map((candidate) => (candidate.id === id ? withdrawn : candidate)),
  }
}

export function addCheck(survey: SurveyFile, check: CheckStandard): SurveyFile {
  return { ...survey, checks: [...(survey.checks ?? []), check] }
}

/** At most one correction a calibration: asking again replaces it, asking without checks takes it away. */
export function setDrift(survey: SurveyFile, { checks, ...asked }: SetDrift): SurveyFile {
  const others = (survey.driftCorrections ?? []).filter(
    (correction) => correction.calibration !== asked.calibration || correction.probe !== asked.probe,
  )
  return { ...survey, driftCorrections: checks.length === 0 ? others : [...others, { ...asked, checks }] }
}

/** A withdrawn probe stays known, with its readings; `reason` null takes it back into use. */
export function withdrawProbe(
  survey: SurveyFile,
  id: string,
  reason: string | null,
  atMs: number,
): SurveyFile {
  if (!survey.probes.some((probe) => probe.id === id))
    throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no probe "${id}".`)
  const probes = survey.probes.map((probe) => {
    if (probe.id !== id) return probe
    const { withdrawn: _before, ...rest } = probe
    return reason === null ? rest : { ...rest, withdrawn: { at: rfc3339(atMs), reason } }
  })
  return { ...survey, probes }
}

/** @returns the survey with the decision, and the id it was given: one more than the highest so far */
export function addDecision(
  survey: SurveyFile,
  decision: AddDecision,
  atMs: number,
): { survey: SurveyFile; id: string } {
  const before = survey.decisions ?? []
  const highest = Math.max(0, ...before.map(({ id }) => Number(/^d(\d+)$/.exec(id)?.[1] ?? 0)))
  const id = `d${highest + 1}`
  return { survey: { ...survey, decisions: [...before, { ...decision, id, at: rfc3339(atMs) }] }, id }
}

export function takeBackDecision(
  survey: SurveyFile,
  id: string,
  by: string | undefined,
  atMs: number,
): SurveyFile {
  const decision = survey.decisions?.find((candidate) => candidate.id === id)
  if (!decision || decision.takenBack)
    throw new HubError(
      'E_NOT_FOUND',
      `Survey "${survey.id}" has no decision "${id}" that could be taken back.`,
    )
  const takenBack = { at: rfc3339(atMs), ...(by === undefined ? {} : { by }) }
  return {
    ...survey,
    decisions: survey.decisions?.map((each) => (each.id === id ? { ...each, takenBack } : each)),
  }
}

/** Says what a probe is there for. What it was placed at before stays on record. */
export function setProbeRole(survey: SurveyFile, id: string, role: SetProbeRole): SurveyFile {
  if (!survey.probes.some((probe) => probe.id === id))
    throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no probe "${id}".`)
  const probes = survey.probes.map((probe) => {
    if (probe.id !== id) return probe
    const { isCarried, reference, ...rest } = probe
    const carried = role.isCarried ?? isCarried
    const stands = role.reference === undefined ? reference : role.reference
    return { ...rest, ...(carried ? { isCarried: true } : {}), ...(stands ? { reference: stands } : {}) }
  })
  return { ...survey, probes }
}
