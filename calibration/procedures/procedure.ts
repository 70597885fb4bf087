import type { Recipe } from '../recipe.ts'
import type { SteadyRule } from '../steadiness.ts'

/** One thing a person types or chooses. Names are those of the recipe's own fields where it has one. */
export interface Field {
  name: string
  label: string
  /** as people write it; empty for text */
  unit: string
  kind: 'number' | 'text' | 'choice' | 'date'
  choices?: readonly { value: string; label: string }[]
  isRequired: boolean
  start?: string
  hint?: string
}

export type Fields = Readonly<Record<string, string | number>>

/** One point as it was held and captured at the bench. */
export interface Captured {
  /** mean of the window, as the channel sends it */
  signal: number
  /** sample standard deviation of the signals in the window; null with one signal */
  scatter: number | null
  n: number
  /** kept although it had not become steady */
  isForced: boolean
  secondsToSteady: number | null
  /** what was typed with it */
  fields: Fields
  role: 'fit' | 'check'
}

/** A way to calibrate at the bench: what to do, what to type, when a signal is steady, and the recipe it becomes. */
export interface Procedure {
  id: string
  quantity: string
  title: string
  /** which quantity comes out, in words, so that unlike ones are never mixed */
  gives: string
  /** what to do with each point */
  steps: readonly string[]
  cautions: readonly string[]
  /** SenML units its signals may come in */
  signalUnits: readonly string[]
  /** typed with each point, and once for all */
  perPoint: readonly Field[]
  settings: readonly Field[]
  fewestPoints: number
  /** when a held signal is steady, in the signal's unit. Common practice, no source; each may be edited */
  steady: SteadyRule
  /** @param points  in the order captured; those of role `check` are left out of the fit */
  recipe(points: readonly Captured[], settings: Fields): Recipe
  /** what the point's reference is in the unit of the values, and what to call it; null when it cannot be said */
  reference(fields: Fields): { value: number; name: string } | null
}

export function numberOf(fields: Fields, name: string): number | undefined {
  const value = fields[name]
  if (value === undefined || value === '') return undefined
  const number = typeof value === 'number' ? value : Number(value.replace(',', '.'))
  return Number.isFinite(number) ? number : undefined
}

export function textOf(fields: Fields, name: string): string | undefined {
  const value = fields[name]
  return value === undefined || value === '' ? undefined : String(value)
}

/** An object without the fields that are undefined: a recipe has no empty places. */
export function given<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as never
}

export const GROUP_RULES =
  'Your school’s own risk assessment and the person in charge come before anything written here.'
