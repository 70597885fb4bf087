import { describe, expect, it } from 'vitest'
import { isOnTransect } from '../../hub/contract/quadrat-place.ts'
import { SurveyFile } from '../../hub/contract/survey.ts'
import { planBoards } from '../../hub/rehearsal/board-plan.ts'
import { mostQuadrats } from '../../hub/rehearsal/invented-site.ts'
import { chanceOf } from '../../hub/rehearsal/seeded-chance.ts'
import { writeSurveyFile } from '../../hub/rehearsal/survey-file.ts'

const startMs = Date.UTC(2026, 5, 12, 9, 30)

function surveyOf(count: number, serialPossible = true) {
  const plans = planBoards(count, serialPossible)
  return { plans, survey: SurveyFile.parse(writeSurveyFile(chanceOf(7), plans, 7, startMs, 5)) }
}

describe('the survey of a rehearsal', () => {
  it.each([1, 2, 7, 8, mostQuadrats])('is a valid survey file with %i quadrats', (count) => {
    const { survey } = surveyOf(count)
    expect(survey.quadrats).toHaveLength(count)
    expect(survey.probes).toHaveLength(5 * count)
    expect(new Set(survey.quadrats.map((quadrat) => quadrat.distanceMetres)).size).toBe(count)
    for (const list of [survey.probes, survey.calibrations]) {
      expect(new Set(list.map((one) => one.id)).size).toBe(list.length)
    }
    for (const { distanceMetres } of survey.quadrats.filter(isOnTransect)) {
      expect(distanceMetres % 0.5).toBe(0)
      expect(distanceMetres).toBeLessThanOrEqual(20)
    }
  })

  it('places every probe from the start, with a calibration from a little before', () => {
    const { survey } = surveyOf(8)
    const ages: number[] = []
    for (const probe of survey.probes) {
      const placement = survey.placements.find((one) => one.probe === probe.id)
      const calibration = survey.calibrations.find((one) => one.probe === probe.id)
      expect(Date.parse(placement!.from)).toBe(startMs)
      ages.push(startMs - Date.parse(calibration!.validFrom))
    }
    expect(ages.filter((age) => age === 45 * 60_000)).toHaveLength(39)
  })

  it.each([1, 8])('has one pH electrode that was left out: its calibration is 40 days old (%i)', (count) => {
    const { survey } = surveyOf(count)
    const old = survey.calibrations.filter(
      ({ validFrom }) => startMs - Date.parse(validFrom) === 40 * 86_400_000,
    )
    expect(old.map(({ recipe }) => recipe.kind)).toEqual(['ph-electrode'])
    expect(survey.calibrations).toHaveLength(5 * count)
  })

  it('differs on the bench by what is not there yet', () => {
    const { plans, survey } = surveyOf(8)
    const onBench = SurveyFile.parse(writeSurveyFile(chanceOf(7), plans, 7, startMs, 5, 'on the bench'))
    expect(onBench).toEqual({ ...survey, placements: [], calibrations: [] })
  })

  it('has three boards on cables, one of them a sketch with decimal commas, and five on MQTT', () => {
    const { plans, survey } = surveyOf(8)
    const links = plans.map((plan) => plan.link)
    expect(links.filter((link) => link === 'serial')).toHaveLength(2)
    expect(links.filter((link) => link === 'mqtt')).toHaveLength(5)
    const [columns, ...others] = survey.boards.filter((board) => board.columns)
    expect(others).toEqual([])
    expect(columns?.columns).toMatchObject({ separator: 'semicolon', decimal: 'comma' })
  })

  it('puts every board on MQTT where no terminal can be made', () => {
    const { plans } = surveyOf(8, false)
    expect(plans.every((plan) => plan.link === 'mqtt')).toBe(true)
    expect(plans.filter((plan) => plan.hasClock)).toHaveLength(1)
  })

  it('dates two-point pH calibrations that pass: slope 95–102 %, offset within 15 mV', () => {
    const { survey } = surveyOf(8)
    const recipes = survey.calibrations
      .map(({ recipe }) => recipe)
      .filter((recipe) => recipe.kind === 'ph-electrode')
    expect(recipes).toHaveLength(8)
    for (const recipe of recipes) {
      const [seven, four] = recipe.points
      expect(seven?.temperatureCelsius).toBe(17)
      const slope = (four!.millivolt - seven!.millivolt) / (7.032 - 4)
      // theoretical slope at 17 °C: 0.198421 × 290.15
      const share = slope / 57.5719
      expect(share).toBeGreaterThan(0.95)
      expect(share).toBeLessThan(1.02)
      expect(Math.abs(seven!.millivolt + 0.032 * slope)).toBeLessThan(15)
    }
  })
})
