import type { PlanRule } from '../../../hub/contract/plan.ts'
import type { KeepPlan } from '../../../hub/contract/plan-api.ts'
import { isZone } from '../../format-time.ts'
import { type FieldFaults, FieldReader } from './field-reader.ts'
import type { PlanForm, RuleForm, WantedForm } from './plan-form.ts'

export type PlanParts = Omit<KeepPlan, 'quadrats' | 'walk'>

/**
 * Reads what is typed.
 * @returns the parts of a survey, to be used only when there are no faults; faults are by place, such as `plan[0].count`
 */
export function readPlanForm(form: PlanForm): { parts: PlanParts; faults: FieldFaults } {
  const read = new FieldReader()
  if (form.title.trim() === '') read.fault('title', 'Give the survey a title, such as “Wood edge, June”.')
  if (form.siteName.trim() === '') read.fault('site.name', 'Name the place.')
  const zone = form.timeZone.trim()
  if (zone !== '' && !isZone(zone))
    read.fault('site.timeZone', 'Not a time zone; write it like Europe/Vienna.')
  if (form.from !== '' && form.to !== '' && form.to < form.from)
    read.fault('to', 'The last day is before the first.')
  const parts: PlanParts = {
    title: form.title.trim(),
    site: {
      name: form.siteName.trim(),
      ...read.maybe('site', 'latitude', form.latitude, -90, 90, 'A latitude lies between −90 and 90.'),
      ...read.maybe('site', 'longitude', form.longitude, -180, 180, 'A longitude lies between −180 and 180.'),
      ...(zone === '' ? {} : { timeZone: zone }),
      ...(form.notes.trim() === '' ? {} : { notes: form.notes.trim() }),
    },
    ...(form.from === '' ? {} : { from: form.from }),
    ...(form.to === '' ? {} : { to: form.to }),
    transects: readTapes(form, read),
    plots: readPlots(form, read),
    plan: form.plan.map((rule, index) => readRule(rule, `plan[${index}]`, read)),
    groups: form.groups.map(({ label, quadrats }, index) => {
      if (label.trim() === '') read.fault(`groups[${index}].label`, 'A label such as G3; no names.')
      return { label: label.trim(), quadrats }
    }),
    wanted: form.wanted.map((wanted, index) => readWanted(wanted, `wanted[${index}]`, read)),
  }
  return { parts, faults: read.faults }
}

const bearing = 'A bearing lies between 0 and 360 degrees.'

function readTapes(form: PlanForm, read: FieldReader): PlanParts['transects'] {
  return form.transects.map((tape, index) => {
    const path = `transects[${index}]`
    const name = tape.name.trim()
    const lengthMetres = read.number(
      `${path}.lengthMetres`,
      tape.lengthMetres,
      0.1,
      10_000,
      'How long is the tape, in metres?',
    )
    return {
      id: tape.id,
      ...(name === '' ? {} : { name }),
      lengthMetres,
      ...read.maybe(path, 'bearingDegrees', tape.bearingDegrees, 0, 360, bearing),
      markSpacingMetres: read.number(
        `${path}.markSpacingMetres`,
        tape.markSpacingMetres,
        0.01,
        lengthMetres || 10_000,
        'Metres between marks: more than 0, no more than the tape.',
      ),
      zones: tape.zones.map((zone, place) => {
        const at = `${path}.zones[${place}]`
        if (zone.name.trim() === '') read.fault(`${at}.name`, 'Name this zone, such as shade.')
        const metres = (field: 'fromMetres' | 'toMetres') =>
          read.number(`${at}.${field}`, zone[field], 0, 10_000, 'A distance from the zero mark, in metres.')
        return { name: zone.name.trim(), fromMetres: metres('fromMetres'), toMetres: metres('toMetres') }
      }),
    }
  })
}

function readPlots(form: PlanForm, read: FieldReader): NonNullable<PlanParts['plots']> {
  return form.plots.map((plot, index) => {
    const path = `plots[${index}]`
    const name = plot.name.trim()
    const metres = (field: 'widthMetres' | 'heightMetres') =>
      read.number(`${path}.${field}`, plot[field], 0.1, 10_000, 'A length in metres, more than 0.')
    return {
      id: plot.id,
      ...(name === '' ? {} : { name }),
      widthMetres: metres('widthMetres'),
      heightMetres: metres('heightMetres'),
      ...read.maybe(path, 'bearingDegrees', plot.bearingDegrees, 0, 360, bearing),
    }
  })
}

function readRule(form: RuleForm, path: string, read: FieldReader): PlanRule {
  const whole = (field: WholeField, most: number) =>
    read.whole(`${path}.${field}`, form[field], 1, most, `A whole number from 1 to ${most}.`)
  const metres = (field: MetresField, least: number) =>
    read.number(`${path}.${field}`, form[field], least, 10_000, metresWords(form[field], least))
  const frame = {
    prefix: form.prefix.trim(),
    sideMetres: read.number(
      `${path}.sideMetres`,
      form.sideMetres,
      0.01,
      100,
      'The side of the square in metres, such as 0.5.',
    ),
    gridDivisions: whole('gridDivisions', 100),
  }
  const stations = () => ({
    transect: form.transect,
    firstMetres: metres('firstMetres', 0),
    everyMetres: metres('everyMetres', 0.01),
    ...(form.lastMetres.trim() === '' ? {} : { lastMetres: metres('lastMetres', 0) }),
  })
  const chance = () => ({
    plot: form.plot,
    seed: read.whole(
      `${path}.seed`,
      form.seed,
      0,
      2 ** 31 - 1,
      'A whole number: the same one draws the same places.',
    ),
    rejected: form.rejected,
  })
  switch (form.rule) {
    case 'random':
      return { rule: 'random', ...frame, ...chance(), count: whole('count', 10_000) }
    case 'stratified':
      return {
        rule: 'stratified',
        ...frame,
        ...chance(),
        rows: whole('rows', 100),
        columns: whole('columns', 100),
        perPart: whole('perPart', 100),
      }
    case 'grid':
      return {
        rule: 'grid',
        ...frame,
        plot: form.plot,
        firstXMetres: metres('firstXMetres', 0),
        firstYMetres: metres('firstYMetres', 0),
        stepXMetres: metres('stepXMetres', 0.01),
        stepYMetres: metres('stepYMetres', 0.01),
      }
    case 'along':
      return { rule: 'along', ...frame, ...stations() }
    case 'belt':
      return { rule: 'belt', ...frame, ...stations(), sideBySide: whole('sideBySide', 20) }
  }
}

type WholeField = 'count' | 'rows' | 'columns' | 'perPart' | 'sideBySide' | 'gridDivisions'
type MetresField =
  | 'firstMetres'
  | 'everyMetres'
  | 'lastMetres'
  | 'firstXMetres'
  | 'firstYMetres'
  | 'stepXMetres'
  | 'stepYMetres'

function metresWords(typed: string, least: number): string {
  if (/^\s*[-−]/.test(typed)) return 'Distances count from the zero mark or the corner: none below 0.'
  return least > 0 ? 'How many metres from one to the next?' : 'A distance in metres, from 0 on.'
}

function readWanted(
  wanted: WantedForm,
  path: string,
  read: FieldReader,
): NonNullable<PlanParts['wanted']>[number] {
  const way = wanted.way.trim()
  const quantity = wanted.quantity.trim()
  if (!/^[a-z][a-z0-9_]*$/.test(quantity))
    read.fault(`${path}.quantity`, 'Lower-case letters, digits and _ only, such as soil_ph.')
  return {
    quantity,
    method: {
      ...(way === '' ? {} : { way }),
      ...read.maybe(path, 'depthCentimetres', wanted.depthCentimetres, 0, 200, 'A depth from 0 to 200 cm.'),
      ...read.maybe(path, 'heightMetres', wanted.heightMetres, 0, 30, 'A height from 0 to 30 m.'),
    },
    by: wanted.by,
    replicates: read.whole(
      `${path}.replicates`,
      wanted.replicates,
      1,
      50,
      'A whole number from 1 to 50; 3 is usual.',
    ),
    minutes: read.number(`${path}.minutes`, wanted.minutes, 0.1, 240, 'Minutes for one quadrat, such as 4.'),
    ...(wanted.quadrats === undefined ? {} : { quadrats: wanted.quadrats }),
  }
}
