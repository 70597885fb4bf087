import type { PlanRule } from '../../../hub/contract/plan.ts'

/** What is written on the planning page, as it is typed. Names of fields are those of the survey file. */
export interface PlanForm {
  title: string
  siteName: string
  latitude: string
  longitude: string
  timeZone: string
  notes: string
  from: string
  to: string
  transects: TapeForm[]
  plots: PlotForm[]
  plan: RuleForm[]
  groups: GroupForm[]
  wanted: WantedForm[]
}

export interface ZoneForm {
  name: string
  fromMetres: string
  toMetres: string
}

export interface TapeForm {
  id: string
  name: string
  lengthMetres: string
  bearingDegrees: string
  markSpacingMetres: string
  zones: ZoneForm[]
}

export interface PlotForm {
  id: string
  name: string
  widthMetres: string
  heightMetres: string
  bearingDegrees: string
}

export type RuleName = PlanRule['rule']
export type Rejected = Extract<PlanRule, { rule: 'random' }>['rejected'][number]

/** All fields of all rules, so that trying another rule and going back loses nothing. */
export interface RuleForm {
  rule: RuleName
  transect: string
  plot: string
  prefix: string
  sideMetres: string
  gridDivisions: string
  count: string
  seed: string
  rejected: Rejected[]
  rows: string
  columns: string
  perPart: string
  firstXMetres: string
  firstYMetres: string
  stepXMetres: string
  stepYMetres: string
  firstMetres: string
  everyMetres: string
  lastMetres: string
  sideBySide: string
}

export interface GroupForm {
  label: string
  quadrats: string[]
}

export interface WantedForm {
  quantity: string
  way: string
  depthCentimetres: string
  heightMetres: string
  by: 'carried' | 'standing'
  replicates: string
  minutes: string
  /** kept as it is in the survey; the page has no field for it */
  quadrats?: string[] | undefined
}

/** @param seed  whole, 0 to 2³¹ − 1 */
export function freshRule(rule: RuleName, seed: number): RuleForm {
  return {
    rule,
    transect: 'T1',
    plot: 'P1',
    prefix: 'Q',
    sideMetres: '0.5',
    gridDivisions: '10',
    count: '10',
    seed: String(seed),
    rejected: [],
    rows: '2',
    columns: '3',
    perPart: '2',
    firstXMetres: '1',
    firstYMetres: '1',
    stepXMetres: '3',
    stepYMetres: '3',
    firstMetres: '1',
    everyMetres: '2',
    lastMetres: '',
    sideBySide: '3',
  }
}

export function freshTape(id: string): TapeForm {
  return { id, name: '', lengthMetres: '20', bearingDegrees: '', markSpacingMetres: '0.5', zones: [] }
}

export function freshPlot(id: string): PlotForm {
  return { id, name: '', widthMetres: '10', heightMetres: '10', bearingDegrees: '' }
}

export function freshWanted(quantity: string): WantedForm {
  return {
    quantity,
    way: '',
    depthCentimetres: '',
    heightMetres: '',
    by: 'carried',
    replicates: '3',
    minutes: '4',
  }
}

/** What a new survey begins with: one tape and a quadrat every two metres, or one plot and ten random quadrats. */
export function layOut(
  ground: 'tape' | 'plot',
  seed: number,
): Pick<PlanForm, 'transects' | 'plots' | 'plan'> {
  return ground === 'tape'
    ? { transects: [freshTape('T1')], plots: [], plan: [freshRule('along', seed)] }
    : { transects: [], plots: [freshPlot('P1')], plan: [freshRule('random', seed)] }
}

export function freshPlan(timeZone: string, from: string, seed: number): PlanForm {
  return {
    title: '',
    siteName: '',
    latitude: '',
    longitude: '',
    timeZone,
    notes: '',
    from,
    to: '',
    ...layOut('tape', seed),
    groups: [],
    wanted: [],
  }
}

/** `T1`, `T2` …, the first that is free. */
export function nextName(letter: string, taken: readonly string[]): string {
  for (let number = 1; ; number++) if (!taken.includes(`${letter}${number}`)) return `${letter}${number}`
}
