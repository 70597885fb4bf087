import type { Probe, SurveyFile } from '../../../contract/survey.ts'
import { judgeStoredCheck } from '../../../survey/readiness.ts'
import { notebook, type Sentence } from '../links.ts'
import { fixed, listed, listedInShort } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { momentText, zoneOrUtc } from '../time-text.ts'

/** Check standards before and after fieldwork, what was corrected for, and which probes nobody checked. */
export function driftSentences({ survey, probes }: ReportFacts): Sentence[] {
  const checked = probes.flatMap((probe) => checksOf(survey, probe))
  const corrected = (survey.driftCorrections ?? []).filter(({ probe }) =>
    probes.some(({ id }) => id === probe),
  )
  const unchecked = probes.filter(
    ({ id }) => !(survey.checks ?? []).some(({ probe, when }) => probe === id && when === 'after'),
  )
  const corrections = corrected.map(({ probe, calibration, checks }) => ({
    text: `Readings of ${probe} since calibration ${calibration} are available corrected for drift in a straight line of time up to ${listed(checks)}, beside the uncorrected ones; this report uses the uncorrected ones.`,
    href: notebook.check(survey.id, probe),
  }))
  if (unchecked.length === 0) return [...checked, ...corrections]
  return [
    ...checked,
    ...corrections,
    {
      text: `No check standard was read after fieldwork with ${listedInShort(unchecked.map(({ id }) => id))}: whether ${unchecked.length === 1 ? 'it' : 'they'} drifted is not known, and the uncertainties do not contain it unless the calibration states a drift.`,
      href: notebook.survey(survey.id),
    },
  ]
}

function checksOf(survey: SurveyFile, probe: Probe): Sentence[] {
  const zone = zoneOrUtc(survey.site.timeZone)
  return (survey.checks ?? [])
    .filter((check) => check.probe === probe.id)
    .map((check) => {
      const { reading, error, verdict } = judgeStoredCheck(survey, probe, check)
      const found =
        reading === null
          ? 'gave no reading'
          : `read ${fixed(reading, 2)} where ${fixed(check.reference, 2)} was true${error === null ? '' : `, an error of ${fixed(error, 2)}`}${verdict === null ? '' : `: ${verdict === 'pass' ? 'within its limit' : 'outside its limit'}`}`
      return {
        text: `${check.when === 'after' ? 'After' : 'Before'} fieldwork (${momentText(check.at, zone)}) ${probe.id} ${found} (${check.referenceName}).`,
        href: notebook.check(survey.id, probe.id),
      }
    })
}
