import { type Fitted, fitCalibration, isRefusal, type Recipe } from '../../../calibration/index.ts'
import type { Calibration } from '../../contract/survey.ts'
import { shownUnit } from '../pictures/shown-unit.ts'
import { calibrationWords } from './methods/calibration-words.ts'
import { alike, probeNames, VERDICT_WORDS } from './methods/calibrations.ts'
import { counted, plain, significant } from './number-text.ts'
import type { ReportFacts } from './report-facts.ts'
import { type Block, type Part, paragraph, table } from './report-model.ts'
import { momentText, zoneOrUtc } from './time-text.ts'

/** Each calibration the report rests on: its points with their residuals, and its uncertainty budget. */
export function calibrationRecords({ survey, calibrations }: ReportFacts): Block[] {
  const zone = zoneOrUtc(survey.site.timeZone)
  const records = alike(calibrations).flatMap((group) => recordOf(survey.id, group, zone))
  const withPoints = records.filter(({ tables }) => tables.length > 0)
  const others = records.filter(({ tables }) => tables.length === 0)
  return [
    ...withPoints.flatMap(({ heading, said, tables }): Block[] => [
      { kind: 'heading', text: heading },
      paragraph(...said),
      ...tables,
    ]),
    ...(others.length === 0
      ? []
      : [
          { kind: 'heading' as const, text: 'Calibrations without reference points' },
          { kind: 'list' as const, items: others.map(({ said }) => said) },
        ]),
  ]
}

interface RecordInPrint {
  heading: string
  said: Part[]
  tables: Block[]
}

/** Calibrations that were entered alike have one record in print. */
function recordOf(survey: string, group: readonly Calibration[], zone: string): RecordInPrint[] {
  const { probe, validFrom, by, recipe } = group[0]!
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) return []
  const who = by === undefined ? '' : ` by ${by}`
  const advice = fitted.advice.map(({ text }) => ` ${text}`).join('')
  const text = `, ${momentText(validFrom, zone)}${who}, ${calibrationWords(recipe, fitted)}. It ${VERDICT_WORDS[fitted.verdict]}.${advice}`
  return [
    {
      heading: group.length === 1 ? probe : `${probe} and ${counted(group.length - 1, 'other')} alike`,
      said: [...probeNames(survey, group), text],
      tables: [...pointsOf(fitted), ...budgetOf(recipe, fitted)],
    },
  ]
}

function pointsOf({ residuals, unit }: Fitted): Block[] {
  if (residuals.length === 0) return []
  const { factor, text } = shownUnit(unit)
  const inUnit = text === '' ? '' : ` (${text})`
  return [
    table(
      'Reference points',
      ['signal', `reference${inUnit}`, `read by the curve minus reference${inUnit}`],
      [0, 1, 2],
      residuals.map(({ signal, reference, residual }) => [
        plain(signal),
        significant(reference * factor, 4),
        Math.abs(residual * factor) < 1e-9 ? '0' : significant(residual * factor, 2),
      ]),
    ),
  ]
}

/** Worked out in the middle of the reference points; without points where the recipe has a middle of its own. */
function budgetOf(recipe: Recipe, fitted: Fitted): Block[] {
  const signal = middleOf(recipe, fitted)
  if (signal === null) return []
  const lines = fitted.budget(signal).filter(({ standardUncertainty }) => standardUncertainty > 0)
  const value = fitted.valueAt(signal)
  if (lines.length === 0 || isRefusal(value)) return []
  const { factor, text } = shownUnit(fitted.unit)
  const freedom = (degrees: number) => (Number.isFinite(degrees) ? significant(degrees, 3) : '∞')
  return [
    table(
      `Uncertainty budget at a signal of ${plain(signal)}, which reads ${significant(value.value * factor, 3, text)}`,
      ['from', `standard uncertainty${text === '' ? '' : ` (${text})`}`, 'degrees of freedom'],
      [1, 2],
      [
        ...lines.map(({ name, standardUncertainty, degreesOfFreedom }) => [
          name as string,
          significant(standardUncertainty * factor, 2),
          freedom(degreesOfFreedom),
        ]),
        ...(value.standardUncertainty === null
          ? []
          : [
              [
                'together',
                significant(value.standardUncertainty * factor, 2),
                freedom(value.degreesOfFreedom),
              ],
            ]),
      ],
    ),
  ]
}

function middleOf(recipe: Recipe, { signalRange }: Fitted): number | null {
  if (signalRange) return (signalRange.low + signalRange.high) / 2
  return recipe.kind === 'wetness-span' ? (recipe.drySignal + recipe.wetSignal) / 2 : null
}
