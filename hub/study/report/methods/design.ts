import type { PlanRule } from '../../../contract/plan.ts'
import { isOnTransect, type TransectQuadrat } from '../../../contract/quadrat-place.ts'
import type { SurveyFile } from '../../../contract/survey.ts'
import { notebook, type Sentence } from '../links.ts'
import { capital, counted, fixed, listed } from '../number-text.ts'

const metres = (value: number) => fixed(Number(value.toFixed(3)), decimalsIn(value), 'm')

function decimalsIn(value: number): number {
  return (String(Number(value.toFixed(3))).split('.')[1] ?? '').length
}

/** Where the quadrats lay and by what rule, so that they could be laid again. */
export function designSentences(survey: SurveyFile): Sentence[] {
  const href = notebook.plan(survey.id)
  const lifted = survey.quadrats.filter((quadrat) => quadrat.lifted)
  const texts = [
    ...survey.transects.map(transectText),
    ...(survey.plots ?? []).map(
      ({ id, name, widthMetres, heightMetres }) =>
        `Plot ${name ?? id} measured ${metres(widthMetres)} by ${metres(heightMetres)}.`,
    ),
    ...(survey.plan ?? []).map(ruleText),
    `In all there were ${counted(survey.quadrats.length, 'quadrat')}${framesText(survey)}.`,
    ...(survey.plan === undefined || survey.plan.length === 0 ? unruled(survey) : []),
    ...(survey.walk && survey.walk.length > 1
      ? [`They were visited in the order ${survey.walk.join(', ')}.`]
      : []),
    ...(lifted.length > 0
      ? [
          `${capital(listed(lifted.map(({ label }) => label)))} ${lifted.length === 1 ? 'was' : 'were'} taken up before the end.`,
        ]
      : []),
  ]
  return texts.map((text) => ({ text, href }))
}

function transectText({
  id,
  name,
  lengthMetres,
  bearingDegrees,
  zones,
}: SurveyFile['transects'][number]): string {
  const bearing =
    bearingDegrees === undefined ? '' : `, bearing ${fixed(bearingDegrees, 0)}° from its zero mark`
  const named = zones.map((zone) => `${zone.name} (${metres(zone.fromMetres)} to ${metres(zone.toMetres)})`)
  const crossed = named.length === 0 ? '' : `; it crossed ${listed(named)}`
  return `Transect ${name ?? id} was ${metres(lengthMetres)} long${bearing}${crossed}.`
}

function ruleText(rule: PlanRule): string {
  const frame = `frames of ${metres(rule.sideMetres)}`
  switch (rule.rule) {
    case 'random':
      return `In plot ${rule.plot} ${counted(rule.count, 'place')} for ${frame} were drawn at random, none overlapping, from the random number ${rule.seed}, by which the same places can be drawn again${rejectedText(rule.rejected)}.`
    case 'stratified':
      return `Plot ${rule.plot} was divided into ${rule.rows}\u00a0×\u00a0${rule.columns} equal parts and ${counted(rule.perPart, 'place')} for ${frame} drawn at random in each, from the random number ${rule.seed}, by which the same places can be drawn again${rejectedText(rule.rejected)}.`
    case 'grid':
      return `In plot ${rule.plot} ${frame} were laid in rows and columns every ${metres(rule.stepXMetres)} and ${metres(rule.stepYMetres)}, beginning at (${metres(rule.firstXMetres)}, ${metres(rule.firstYMetres)}).`
    case 'along':
      return `Along transect ${rule.transect} ${frame} were laid every ${metres(rule.everyMetres)}, from ${metres(rule.firstMetres)} on${lastText(rule.lastMetres)}: a systematic sample.`
    case 'belt':
      return `Along transect ${rule.transect} ${counted(rule.sideBySide, 'frame')} of ${metres(rule.sideMetres)} were laid side by side every ${metres(rule.everyMetres)}, from ${metres(rule.firstMetres)} on${lastText(rule.lastMetres)}: a belt.`
  }
}

function lastText(lastMetres: number | undefined): string {
  return lastMetres === undefined ? '' : ` to ${metres(lastMetres)}`
}

function rejectedText(rejected: readonly { reason: string }[]): string {
  if (rejected.length === 0) return ''
  return `; ${counted(rejected.length, 'place')} drawn first could not be used (${[...new Set(rejected.map(({ reason }) => reason))].join('; ')})`
}

function framesText({ quadrats }: SurveyFile): string {
  const frames = new Set(
    quadrats.map(
      ({ sideMetres, gridDivisions }) =>
        `${metres(sideMetres)} by ${metres(sideMetres)}, grid of ${gridDivisions}\u00a0×\u00a0${gridDivisions}`,
    ),
  )
  return frames.size === 0 ? '' : ` (${listed([...frames])})`
}

/** Without a rule: the spacing where it is even, and that no rule was kept. */
function unruled(survey: SurveyFile): string[] {
  const texts = survey.transects.flatMap((transect) => {
    const here = survey.quadrats
      .filter(
        (quadrat): quadrat is TransectQuadrat => isOnTransect(quadrat) && quadrat.transect === transect.id,
      )
      .map(({ distanceMetres }) => distanceMetres)
      .sort((one, other) => one - other)
    const steps = here.slice(1).map((distance, index) => distance - here[index]!)
    const [first] = steps
    const isEven = first !== undefined && first > 0 && steps.every((step) => Math.abs(step - first) < 1e-6)
    if (here.length < 2) return []
    const from = `from ${metres(here[0]!)} to ${metres(here.at(-1)!)}`
    return [
      isEven
        ? `On transect ${transect.id} they lay every ${metres(first)}, ${from}.`
        : `On transect ${transect.id} they lay at ${here.map(metres).join(', ')}.`,
    ]
  })
  return [...texts, 'By which rule they were chosen was not recorded.']
}
