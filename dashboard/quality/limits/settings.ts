import type { QualityTestListed } from '../../../hub/contract/quality.ts'
import type { QualitySettings } from '../../../hub/contract/survey.ts'
import type { Fault } from '../../client.ts'
import { readWritten } from './read-written.ts'
import type { LimitSchema } from './schema.ts'
import { type WrittenGroup, writtenOf } from './written.ts'

/** How a test stands for a quantity. Where it has no default limits, `default` is off. */
export type Setting = { kind: 'default' } | { kind: 'off' } | { kind: 'own'; typed: WrittenGroup }

/** What is changed on the page and not saved yet. */
export type Draft = Readonly<Record<string, Setting>>

export const draftKey = (test: string, quantity: string) => `${test} ${quantity}`

export function schemaOf(test: QualityTestListed): LimitSchema {
  return test.schema as LimitSchema
}

export function defaultTyped(test: QualityTestListed, quantity: string, unit: string): WrittenGroup | null {
  const known = test.defaults[quantity]
  return known ? writtenOf(schemaOf(test), known.limits, unit) : null
}

/** As the survey has it. */
export function savedSetting(
  test: QualityTestListed,
  quantity: string,
  unit: string,
  quality: QualitySettings | undefined,
): Setting {
  const own = quality?.[test.name]?.[quantity]
  if (own === undefined) return { kind: 'default' }
  if (own === 'off') return { kind: 'off' }
  return { kind: 'own', typed: writtenOf(schemaOf(test), own, unit) }
}

/**
 * All settings of a survey with what is changed on the page, and the faults of what is typed by their path in the file,
 * such as `quality.spike.soil_ph.failDifference`. Limits that are the same as the defaults are not kept as its own.
 */
export function withDraft(
  tests: readonly QualityTestListed[],
  quality: QualitySettings | undefined,
  draft: Draft,
  unitOf: (quantity: string) => string,
): { settings: QualitySettings; faults: Fault[] } {
  const settings: QualitySettings = structuredClone(quality ?? {})
  const faults: Fault[] = []
  for (const [key, setting] of Object.entries(draft)) {
    const [name = '', quantity = ''] = key.split(' ')
    const test = tests.find((each) => each.name === name)
    if (!test) continue
    const ofTest = { ...settings[name] }
    const known = test.defaults[quantity]
    if (setting.kind === 'own') {
      const read = readWritten(schemaOf(test), setting.typed, unitOf(quantity))
      for (const { path, message } of read.faults)
        faults.push({ path: `quality.${name}.${quantity}.${path}`, message })
      if (known && isSame(known.limits, read.limits)) delete ofTest[quantity]
      else ofTest[quantity] = read.limits
    } else if (setting.kind === 'off' && known) ofTest[quantity] = 'off'
    else delete ofTest[quantity]
    if (Object.keys(ofTest).length > 0) settings[name] = ofTest
    else delete settings[name]
  }
  return { settings, faults }
}

/** Tests and quantities whose settings differ between two files. */
export function changedSettings(
  before: QualitySettings | undefined,
  after: QualitySettings,
): { test: string; quantity: string }[] {
  const names = new Set([...Object.keys(before ?? {}), ...Object.keys(after)])
  return [...names].flatMap((test) => {
    const quantities = new Set([...Object.keys(before?.[test] ?? {}), ...Object.keys(after[test] ?? {})])
    return [...quantities]
      .filter((quantity) => !isSame(before?.[test]?.[quantity], after[test]?.[quantity]))
      .map((quantity) => ({ test, quantity }))
  })
}

/** The same but for the order of names. */
function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one, inOrder) === JSON.stringify(other, inOrder)
}

function inOrder(_: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  return Object.fromEntries(Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)))
}
