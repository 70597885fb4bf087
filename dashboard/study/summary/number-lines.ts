import type { QuadratSummary } from '../../../hub/contract/study.ts'
import { countText, numberText, shownFactor, unitText } from '../../format.ts'
import { momentText } from '../../format-time.ts'
import { valueWithUncertainty } from './value-with-uncertainty.ts'

export interface NumberLine {
  name: string
  text: string
  /** what it means, for who has not met it; empty when the name says it */
  note: string
}

/** Three significant digits of what is not a result itself, such as a spread. */
function rough(value: number): string {
  if (value === 0) return '0'
  const order = Math.floor(Math.log10(Math.abs(value)))
  return numberText(Number(value.toPrecision(3)), Math.max(0, 2 - order))
}

/** Every number behind one cell of the summary; what cannot be known is said to be so. */
export function numberLines(summary: QuadratSummary, zone: string | undefined): NumberLine[] {
  const { quantity, unit } = summary
  const factor = shownFactor(unit)
  const written = unitText(unit)
  const withUnit = (text: string) => (written === '' || written === 'pH' ? text : `${text} ${written}`)
  const spread = (value: number | null) => (value === null ? 'not known' : withUnit(rough(value * factor)))
  const value = (of: number) => withUnit(valueWithUncertainty(quantity, unit, of, summary.expanded).value)
  const line = (name: string, text: string, note = ''): NumberLine => ({ name, text, note })
  return [
    line('mean', value(summary.mean)),
    line('median', value(summary.median), 'half of the values lie below'),
    ...(summary.hydrogenIonMean === null
      ? []
      : [
          line(
            'mean of hydrogen ions, as pH',
            numberText(summary.hydrogenIonMean, 2),
            'asked for; for soil the mean of pH is right',
          ),
        ]),
    line('lowest to highest', `${value(summary.low)} to ${value(summary.high)}`),
    line(
      'middle half',
      `${value(summary.lowerQuartile)} to ${value(summary.upperQuartile)}`,
      'a quarter of the values lie below, a quarter above',
    ),
    line('standard deviation', spread(summary.standardDeviation), 'how far single values scatter'),
    line('standard error', spread(summary.standardError), 'how far the mean may be off by that scatter'),
    line(
      'independent values',
      summary.effectiveN === null
        ? 'not known'
        : `${rough(summary.effectiveN)} of ${numberText(summary.n, 0)}`,
      'values close in time resemble each other',
    ),
    ...uncertaintyLines(summary, spread),
    line('from', momentText(Date.parse(summary.from), zone)),
    line('to', momentText(Date.parse(summary.to), zone)),
    ...fieldLines(summary, line, withUnit, factor),
    line('probe', summary.probes.join(', ')),
    line('calibration', summary.calibrations.join(', ') || 'none'),
  ]
}

function uncertaintyLines(summary: QuadratSummary, spread: (value: number | null) => string): NumberLine[] {
  const { samplingUncertainty, probeUncertainty, methodUncertainty, expanded, degreesOfFreedom } = summary
  const freedom =
    degreesOfFreedom === null || degreesOfFreedom > 1000
      ? 'many'
      : numberText(degreesOfFreedom, degreesOfFreedom < 10 ? 1 : 0)
  return [
    {
      name: 'uncertainty: spread',
      text: spread(samplingUncertainty),
      note: 'patchy ground, changing weather',
    },
    { name: 'uncertainty: probe', text: spread(probeUncertainty), note: 'probe and calibration' },
    ...(methodUncertainty === null
      ? []
      : [
          {
            name: 'uncertainty: method',
            text: spread(methodUncertainty),
            note: 'what the way of measuring adds',
          },
        ]),
    {
      name: 'all together, 95 %',
      text: `± ${spread(expanded)}`,
      note: `degrees of freedom: ${freedom}${probeUncertainty === null ? '; without the probe’s part, which is not known' : ''}`,
    },
  ]
}

function fieldLines(
  summary: QuadratSummary,
  line: (name: string, text: string, note?: string) => NumberLine,
  withUnit: (text: string) => string,
  factor: number,
): NumberLine[] {
  const { openSkyPercent, gust, calmPercent, differenceFromFixed: fixed } = summary
  return [
    ...(openSkyPercent === null
      ? []
      : [line('of open sky', `${rough(openSkyPercent)} %`, 'paired with the open-sky probe in time')]),
    ...(gust === null ? [] : [line('gust', withUnit(numberText(gust, 1)), 'largest running 3 s mean')]),
    ...(calmPercent === null
      ? []
      : [line('calm', `${rough(calmPercent)} %`, 'blocks without a turn of the cups')]),
    ...(fixed === null
      ? []
      : [
          line(
            `difference from ${fixed.probe}`,
            withUnit(rough(fixed.mean * factor)),
            `at the same minutes, ${countText(fixed.n, 'pair')}`,
          ),
        ]),
  ]
}
