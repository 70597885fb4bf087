import type { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { SurveyFile } from '../contract/survey.ts'
import { QUALITY_TESTS } from '../quality/tests.ts'
import { findFieldworkFaults, findQuadratFaults, findTypedFaults } from './fieldwork-faults.ts'
import { findMethodFaults } from './method-and-kind.ts'
import { overlappingPlacements } from './placements.ts'

/** One fault of a survey file, at its place: a path such as `quadrats[3].distanceMetres`. */
export interface SurveyFault {
  path: string
  message: string
}

export type SurveyReading = { survey: SurveyFile; faults: [] } | { survey: null; faults: SurveyFault[] }

/** Reads a survey file completely: its shape first, then that everything it refers to is there. */
export function readSurveyFile(file: unknown): SurveyReading {
  const shape = SurveyFile.safeParse(file)
  if (!shape.success) return { survey: null, faults: shape.error.issues.map(asFault) }
  const faults = findFaults(shape.data)
  return faults.length === 0 ? { survey: shape.data, faults: [] } : { survey: null, faults }
}

function asFault(issue: z.core.$ZodIssue): SurveyFault {
  return { path: pathText(issue.path), message: issue.message }
}

export function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step}]` : text ? `${text}.${String(step)}` : String(step),
    '',
  )
}

function findFaults(survey: SurveyFile): SurveyFault[] {
  const faults: SurveyFault[] = []
  const fault = (path: string, message: string) => faults.push({ path, message })
  const once = (list: string, keys: string[], what: string) => {
    const seen = new Set<string>()
    for (const [index, key] of keys.entries()) {
      if (seen.has(key)) fault(`${list}[${index}]`, `${what} "${key}" is there twice`)
      seen.add(key)
    }
    return seen
  }
  once(
    'transects',
    survey.transects.map((transect) => transect.id),
    'transect',
  )
  const quadrats = once(
    'quadrats',
    survey.quadrats.map((quadrat) => quadrat.label),
    'quadrat label',
  )
  once(
    'boards',
    survey.boards.map((board) => board.name),
    'board',
  )
  const probes = once(
    'probes',
    survey.probes.map((probe) => probe.id),
    'probe',
  )
  once(
    'checks',
    (survey.checks ?? []).map((check) => check.id),
    'check',
  )
  once(
    'calibrations',
    survey.calibrations.map((calibration) => calibration.id),
    'calibration',
  )

  for (const [index, transect] of survey.transects.entries())
    for (const [zoneIndex, zone] of transect.zones.entries())
      if (zone.toMetres <= zone.fromMetres || zone.toMetres > transect.lengthMetres)
        fault(
          `transects[${index}].zones[${zoneIndex}]`,
          `zone "${zone.name}" runs from ${zone.fromMetres} m to ${zone.toMetres} m on a transect of ${transect.lengthMetres} m`,
        )
  findQuadratFaults(survey, fault)
  findFieldworkFaults(survey, fault)
  findTypedFaults(survey, fault)
  const { timeZone } = survey.site
  if (timeZone !== undefined && !isZone(timeZone))
    fault('site.timeZone', `"${timeZone}" is not a time zone; write it like Europe/Vienna`)
  if (survey.from && survey.to && survey.to < survey.from)
    fault('to', `${survey.to} is before ${survey.from}`)
  findProbeFaults(survey, fault)
  findCheckFaults(survey, fault)
  findQualityFaults(survey, fault)
  faults.push(...findMethodFaults(survey))
  for (const [index, placement] of survey.placements.entries()) {
    if (!probes.has(placement.probe))
      fault(`placements[${index}].probe`, `there is no probe "${placement.probe}"`)
    if (placement.quadrat !== null && !quadrats.has(placement.quadrat))
      fault(`placements[${index}].quadrat`, `there is no quadrat "${placement.quadrat}"`)
    if (placement.to !== undefined && Date.parse(placement.to) <= Date.parse(placement.from))
      fault(`placements[${index}].to`, `${placement.to} is not after ${placement.from}`)
  }
  for (const { index, other } of overlappingPlacements(survey.placements))
    fault(
      `placements[${index}]`,
      `probe "${other.probe}" is at ${other.quadrat ?? 'no quadrat'} too, from ${other.from}: it cannot be at two places at once`,
    )
  for (const [index, calibration] of survey.calibrations.entries()) {
    if (!probes.has(calibration.probe))
      fault(`calibrations[${index}].probe`, `there is no probe "${calibration.probe}"`)
    const fitted = fitCalibration(calibration.recipe)
    if (isRefusal(fitted)) fault(`calibrations[${index}].recipe`, `${fitted.code}: ${fitted.message}`)
  }
  return faults
}

function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: name })
    return true
  } catch {
    return false
  }
}

function findQualityFaults(survey: SurveyFile, fault: (path: string, message: string) => void): void {
  for (const [name, quantities] of Object.entries(survey.quality ?? {})) {
    const test = QUALITY_TESTS.find((candidate) => candidate.name === name)
    if (!test) {
      fault(
        `quality.${name}`,
        `there is no quality test "${name}"; there are ${QUALITY_TESTS.map((t) => t.name).join(', ')}`,
      )
      continue
    }
    for (const [quantity, config] of Object.entries(quantities)) {
      if (config === 'off') continue
      const read = test.config.safeParse(config)
      for (const issue of read.error?.issues ?? [])
        fault(
          `quality.${name}.${quantity}${issue.path.length ? `.${pathText(issue.path)}` : ''}`,
          issue.message,
        )
    }
  }
}

function findCheckFaults(survey: SurveyFile, fault: (path: string, message: string) => void): void {
  const probes = new Set(survey.probes.map((probe) => probe.id))
  const checks = new Map((survey.checks ?? []).map((check) => [check.id, check]))
  for (const [index, decision] of (survey.decisions ?? []).entries()) {
    if (!probes.has(decision.probe))
      fault(`decisions[${index}].probe`, `there is no probe "${decision.probe}"`)
    if (Date.parse(decision.to) <= Date.parse(decision.from))
      fault(`decisions[${index}].to`, `${decision.to} is not after ${decision.from}`)
  }
  for (const [index, check] of (survey.checks ?? []).entries())
    if (!probes.has(check.probe)) fault(`checks[${index}].probe`, `there is no probe "${check.probe}"`)
  for (const [index, correction] of (survey.driftCorrections ?? []).entries()) {
    const path = `driftCorrections[${index}]`
    const { probe, calibration: id } = correction
    const calibration = survey.calibrations.find((candidate) => candidate.id === id)
    if (calibration?.probe !== probe)
      fault(`${path}.calibration`, `probe "${probe}" has no calibration "${id}"`)
    for (const [place, checkId] of correction.checks.entries()) {
      const check = checks.get(checkId)
      if (check?.probe !== probe)
        fault(`${path}.checks[${place}]`, `probe "${probe}" has no check "${checkId}"`)
      else if (calibration && Date.parse(check.at) <= Date.parse(calibration.validFrom))
        fault(`${path}.checks[${place}]`, `check "${checkId}" was before calibration "${id}"`)
    }
  }
}

function findProbeFaults(survey: SurveyFile, fault: (path: string, message: string) => void): void {
  for (const [index, probe] of survey.probes.entries()) {
    const start = probe.connectedFrom ? Date.parse(probe.connectedFrom) : -Infinity
    const end = probe.connectedTo ? Date.parse(probe.connectedTo) : Infinity
    if (end <= start)
      fault(`probes[${index}].connectedTo`, `${probe.connectedTo} is not after ${probe.connectedFrom}`)
    for (const [otherIndex, other] of survey.probes.slice(0, index).entries()) {
      if (other.board !== probe.board || other.channel !== probe.channel) continue
      const otherStart = other.connectedFrom ? Date.parse(other.connectedFrom) : -Infinity
      const otherEnd = other.connectedTo ? Date.parse(other.connectedTo) : Infinity
      if (start < otherEnd && otherStart < end)
        fault(
          `probes[${index}].channel`,
          `probe "${probe.id}" and probe "${other.id}" (probes[${otherIndex}]) are both on ${probe.board}/${probe.channel} at the same time`,
        )
    }
  }
}
