import { fitCalibration, isRefusal } from '../../../../calibration/index.ts'
import type { Calibration } from '../../../contract/survey.ts'
import { linkNumbers, notebook, type Sentence, sentencesToParts } from '../links.ts'
import { listed } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { type Block, type Part, table } from '../report-model.ts'
import { momentText, zoneOrUtc } from '../time-text.ts'
import { calibrationWords } from './calibration-words.ts'

export const VERDICT_WORDS = { pass: 'passed', warn: 'passed with a warning', fail: 'failed' } as const

const SENTENCES_AT_MOST = 6

/** Every calibration that readings of the report rest on; those that were entered alike share a sentence. */
function calibrationSentences(facts: ReportFacts): Sentence[] {
  const { survey, calibrations, probes } = facts
  const sentences = alike(calibrations).flatMap((group) => sentenceOf(facts, group))
  const without = probes.filter(({ id }) => !calibrations.some(({ probe }) => probe === id))
  if (without.length > 0)
    sentences.push({
      text: `${listed(without.map(({ id }) => id))} had no calibration that passed.`,
      href: notebook.survey(survey.id),
    })
  return sentences
}

/** In sentences; of more probes than fit in a paragraph as a table, in the order of the instruments. */
export function calibrationBlocks(facts: ReportFacts): Block[] {
  const { survey, calibrations } = facts
  const order = [...new Set(facts.probes.map(({ quantity }) => quantity))]
  const place = (probe: string) => order.indexOf(facts.probes.find(({ id }) => id === probe)?.quantity ?? '')
  const groups = alike(calibrations).sort(([one], [other]) => place(one!.probe) - place(other!.probe))
  if (groups.length <= SENTENCES_AT_MOST) {
    const sentences = calibrationSentences(facts)
    return sentences.length === 0 ? [] : [{ kind: 'paragraph', parts: sentencesToParts(sentences) }]
  }
  const zone = zoneOrUtc(survey.site.timeZone)
  const rows = groups.flatMap((group): Part[][] => {
    const { id, probe, validFrom, by, recipe } = group[0]!
    const fitted = fitCalibration(recipe)
    if (isRefusal(fitted)) return []
    const href = notebook.record(survey.id, probe, id)
    return [
      [
        { text: listed(group.map((each) => each.probe)), href },
        { text: unbroken(momentText(validFrom, zone)), href },
        unbroken(by ?? '–'),
        { text: calibrationWords(recipe, fitted), href },
        VERDICT_WORDS[fitted.verdict],
      ],
    ]
  })
  return [
    table('How each probe was calibrated', ['Probe', 'when', 'by', 'how, and what came of it', ''], [], rows),
  ]
}

const unbroken = (text: string) => text.replaceAll(' ', '\u00a0')

/** Calibrations of the same moment with the same points, in groups; the order stays that of the first of each. */
export function alike(calibrations: readonly Calibration[]): Calibration[][] {
  const groups = new Map<string, Calibration[]>()
  for (const calibration of calibrations) {
    const { validFrom, by, recipe } = calibration
    const key = JSON.stringify([validFrom, by, recipe])
    groups.set(key, [...(groups.get(key) ?? []), calibration])
  }
  return [...groups.values()]
}

function sentenceOf({ survey }: ReportFacts, group: readonly Calibration[]): Sentence[] {
  const { id, probe, validFrom, by, recipe } = group[0]!
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) return []
  const when = momentText(validFrom, zoneOrUtc(survey.site.timeZone))
  const who = by === undefined ? '' : ` by ${by}`
  const [was, they] = group.length === 1 ? ['was', 'it'] : ['were each', 'all']
  const text = ` ${was} calibrated on ${when}${who} ${calibrationWords(recipe, fitted)}; ${they} ${VERDICT_WORDS[fitted.verdict]}.`
  return [
    {
      parts: [...probeNames(survey.id, group), ...linkNumbers(text, notebook.record(survey.id, probe, id))],
    },
  ]
}

/** Each name leads to the record of its own calibration. */
export function probeNames(survey: string, group: readonly Calibration[]): Part[] {
  return group.flatMap(({ id, probe }, index): Part[] => [
    ...(index === 0 ? [] : [index === group.length - 1 ? ' and ' : ', ']),
    { text: probe, href: notebook.record(survey, probe, id) },
  ])
}
