import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import { ANY_CALIBRATION_INTERVAL_DAYS, quantityFacts } from '../../contract/quantity-facts.ts'

import { alike } from './methods/calibrations.ts'
import { counted, listedInShort } from './number-text.ts'
import type { ReportFacts } from './report-facts.ts'
import type { ReportSection } from './report-model.ts'

const DAY_MS = 86_400_000

/** What the data cannot say, from the data: cautions of the summaries, calibrations with warnings, missing checks. */
export function limitationsSection(facts: ReportFacts): ReportSection {
  const { material, survey, probes, calibrations } = facts
  const warned = alike(calibrations).flatMap((group) => {
    const fitted = fitCalibration(group[0]!.recipe)
    return isRefusal(fitted) || fitted.verdict === 'pass'
      ? []
      : [
          `${listedInShort(group.map(({ probe }) => probe))}: ${fitted.advice.map(({ text }) => text).join(' ')}`,
        ]
  })
  const unchecked = probes.filter(
    ({ id }) => !(survey.checks ?? []).some((check) => check.probe === id && check.when === 'after'),
  )
  const hasTape = material.summary.quadrats.some(({ distanceMetres }) => distanceMetres !== null)
  const items = [
    ...material.summary.cautions.map(({ text }) => text),
    ...warned.map((text) => `A calibration passed with a warning. ${text}`),
    ...oldCalibrations(facts),
    ...openQuestions(facts),
    ...(unchecked.length === 0
      ? []
      : [
          `Nobody read a check standard after fieldwork with ${listedInShort(unchecked.map(({ id }) => id))}, so drift on the day is not known.`,
        ]),
    ...(hasTape
      ? ['Quadrats along a tape resemble their neighbours and are not independent: every p is too hopeful.']
      : []),
    'One survey on one day shows how this place was then. Factors change together (shade also cools, shelters and keeps soil wet or dry), so going together is not cause.',
    'The probes are teaching probes: good for comparing places with each other, not for saying whether a soil is healthy or a limit is kept.',
  ]
  return {
    title: 'Limitations',
    blocks: [{ kind: 'list', items: [...new Set(items)].map((text) => [text]) }],
    beginsPage: false,
  }
}

/** Calibrations that were older than they are trusted when the first reading under them was taken. */
function oldCalibrations({ calibrations, material, survey }: ReportFacts): string[] {
  return calibrations.flatMap(({ id, probe, validFrom }) => {
    const first = material.summary.summaries
      .filter((each) => each.calibrations.includes(id) && each.probes.includes(probe))
      .map(({ from }) => Date.parse(from))
      .sort((one, other) => one - other)[0]
    const of = survey.probes.find((each) => each.id === probe)
    if (first === undefined || !of) return []
    const days = (first - Date.parse(validFrom)) / DAY_MS
    const trusted =
      of.calibrationIntervalDays ??
      quantityFacts(of.quantity)?.calibrationIntervalDays ??
      ANY_CALIBRATION_INTERVAL_DAYS
    if (days <= trusted) return []
    return [
      `The calibration of ${probe} was ${counted(Math.round(days), 'day')} old when it measured; it is trusted for ${counted(trusted, 'day')}.`,
    ]
  })
}

function openQuestions({ species, join }: ReportFacts): string[] {
  const asked = [...(species?.table?.questions ?? []), ...(join?.questions ?? [])]
  const open = asked.filter(({ answer }) => answer === null).map(({ text }) => text)
  return [...new Set(open)].map((text) => `A question about the species sheet is still open: ${text}`)
}
