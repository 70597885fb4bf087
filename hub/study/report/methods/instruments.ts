import type { Probe } from '../../../contract/survey.ts'
import { notebook, type Sentence, sentencesToParts } from '../links.ts'
import { capital, counted, fixed, listed } from '../number-text.ts'
import { quantityHow, quantityLabel } from '../quantity-name.ts'
import type { ReportFacts } from '../report-facts.ts'
import { fromToText, lengthText, zoneOrUtc } from '../time-text.ts'

/** What measured, with serial numbers, and how: carried or logging, how often, how many times at a quadrat. */
export function instrumentSentences(facts: ReportFacts): Sentence[] {
  const groups = new Map<string, Probe[]>()
  for (const probe of facts.probes) {
    const key = `${quantityHow(probe.quantity, probe.method)}\n${probe.reference ?? ''}`
    groups.set(key, [...(groups.get(key) ?? []), probe])
  }
  return [...groups.values()].map((probes) => ({ parts: sentencesToParts(ofGroup(facts, probes)) }))
}

function ofGroup(facts: ReportFacts, probes: readonly Probe[]): Sentence[] {
  const { survey } = facts
  const first = probes[0]!
  const role = roleText(first)
  const names = probes.map(({ id, serialNumber }) =>
    serialNumber === undefined ? id : `${id} (serial number ${serialNumber})`,
  )
  const opening: Sentence = {
    text: `${quantityHow(first.quantity, first.method)}${role} was measured with ${listed(names)}.`,
    href: notebook.records(survey.id, first.id),
  }
  const carried = probes.filter(({ isCarried, isTyped }) => isCarried || isTyped)
  const logged = probes.filter(({ isCarried, isTyped }) => !isCarried && !isTyped)
  return [
    opening,
    ...(logged.length > 0 ? loggedSentences(facts, logged) : []),
    ...(carried.length > 0 ? carriedSentences(facts, carried) : []),
  ]
}

function roleText({ reference }: Probe): string {
  if (reference === 'open-sky') return ' of the open sky, beside the quadrats,'
  return reference === 'wind-mast' ? ' at the mast, beside the quadrats,' : ''
}

function loggedSentences({ survey, material }: ReportFacts, probes: readonly Probe[]): Sentence[] {
  const ids = new Set(probes.map(({ id }) => id))
  const boards = survey.boards.filter(({ name }) => probes.some(({ board }) => board === name))
  const intervals = [...new Set(boards.flatMap(({ sampleIntervalSeconds }) => sampleIntervalSeconds ?? []))]
  const every =
    intervals.length === 0
      ? ', at an interval that is not recorded'
      : ` every ${listed(intervals.sort((a, b) => a - b).map(lengthText))}`
  const here = material.summary.summaries.filter(
    ({ kind, probes: used }) => kind === 'logged' && used.some((id) => ids.has(id)),
  )
  const times = here.flatMap(({ from, to }) => [from, to]).sort()
  const span =
    times.length === 0 ? '' : ` (${fromToText(times[0]!, times.at(-1)!, zoneOrUtc(survey.site.timeZone))})`
  return [
    {
      text: `${probes.length === 1 ? 'It stood' : 'They stood'} in ${probes.length === 1 ? 'its' : 'their'} place and logged${every}${span}.`,
      href: notebook.boards(),
    },
  ]
}

function carriedSentences({ survey, spots }: ReportFacts, probes: readonly Probe[]): Sentence[] {
  const ids = new Set(probes.map(({ id }) => id))
  const taken = spots.filter(({ spot }) => ids.has(spot.probe) && !spot.isTakenBack)
  if (taken.length === 0) return []
  const byQuadrat = new Map<string, number>()
  for (const { spot, n } of taken) byQuadrat.set(spot.quadrat, (byQuadrat.get(spot.quadrat) ?? 0) + n)
  const counts = [...byQuadrat.values()]
  const insertions = taken.flatMap(({ replicates }) => replicates)
  const unsteady = insertions.filter(({ isSteady }) => !isSteady).length
  const [low, high] = [Math.min(...counts), Math.max(...counts)]
  const times = low === high ? counted(low, 'time') : `${fixed(low, 0)} to ${counted(high, 'time')}`
  const label = quantityLabel(probes[0]!.quantity)
  return [
    {
      text: `The meter was carried from quadrat to quadrat and put in anew ${times} at each; every insertion is one value, the mean of its readings (${counted(insertions.length, 'insertion')} at ${counted(counts.length, 'quadrat')}).`,
      href: notebook.carry(survey.id),
    },
    ...(unsteady > 0
      ? [
          {
            text: `${capital(label)}: ${counted(unsteady, 'insertion')} had not settled and ${unsteady === 1 ? 'was' : 'were'} left out.`,
            href: notebook.carry(survey.id),
          },
        ]
      : []),
  ]
}
