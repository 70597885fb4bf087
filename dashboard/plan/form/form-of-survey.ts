import type { PlanRule } from '../../../hub/contract/plan.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { freshRule, type PlanForm, type RuleForm } from './plan-form.ts'

const text = (number: number | undefined) => (number === undefined ? '' : String(number))

/** A kept survey as it would have been typed. */
export function formOfSurvey(survey: SurveyFile): PlanForm {
  const { site } = survey
  return {
    title: survey.title,
    siteName: site.name,
    latitude: text(site.latitude),
    longitude: text(site.longitude),
    timeZone: site.timeZone ?? '',
    notes: site.notes ?? '',
    from: survey.from ?? '',
    to: survey.to ?? '',
    transects: survey.transects.map((tape) => ({
      id: tape.id,
      name: tape.name ?? '',
      lengthMetres: text(tape.lengthMetres),
      bearingDegrees: text(tape.bearingDegrees),
      markSpacingMetres: text(tape.markSpacingMetres),
      zones: tape.zones.map((zone) => ({
        name: zone.name,
        fromMetres: text(zone.fromMetres),
        toMetres: text(zone.toMetres),
      })),
    })),
    plots: (survey.plots ?? []).map((plot) => ({
      id: plot.id,
      name: plot.name ?? '',
      widthMetres: text(plot.widthMetres),
      heightMetres: text(plot.heightMetres),
      bearingDegrees: text(plot.bearingDegrees),
    })),
    plan: (survey.plan ?? []).map(ruleForm),
    groups: (survey.groups ?? []).map(({ label, quadrats }) => ({ label, quadrats: [...quadrats] })),
    wanted: (survey.wanted ?? []).map((each) => ({
      quantity: each.quantity,
      way: each.method.way ?? '',
      depthCentimetres: text(each.method.depthCentimetres),
      heightMetres: text(each.method.heightMetres),
      by: each.by,
      replicates: text(each.replicates),
      minutes: text(each.minutes),
      ...(each.quadrats === undefined ? {} : { quadrats: each.quadrats }),
    })),
  }
}

/** Numbers become text; what the rule does not have stays as in a fresh one. */
function ruleForm(rule: PlanRule): RuleForm {
  const written = Object.entries(rule).map(([name, value]) => [
    name,
    typeof value === 'number' ? String(value) : value,
  ])
  return { ...freshRule(rule.rule, 1), ...Object.fromEntries(written) }
}
