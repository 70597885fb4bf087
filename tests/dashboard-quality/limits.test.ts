import { describe, expect, it } from 'vitest'
import type { Fault } from '../../dashboard/client.ts'
import { durationMs, writtenDuration } from '../../dashboard/quality/limits/durations.ts'
import { faultPlace } from '../../dashboard/quality/limits/fault-places.ts'
import { limitLines } from '../../dashboard/quality/limits/limit-lines.ts'
import { limitLabel } from '../../dashboard/quality/limits/limit-words.ts'
import { readWrittenNumber, writtenNumber } from '../../dashboard/quality/limits/numbers.ts'
import { unitFinder } from '../../dashboard/quality/limits/quantity-units.ts'
import { readWritten } from '../../dashboard/quality/limits/read-written.ts'
import { type LimitSchema, shapeOf } from '../../dashboard/quality/limits/schema.ts'
import { changedSettings, draftKey, schemaOf, withDraft } from '../../dashboard/quality/limits/settings.ts'
import { type NamedSpan, type WrittenGroup, writtenOf } from '../../dashboard/quality/limits/written.ts'
import { qualityTestsListed } from '../../hub/http/quality-list.ts'
import { QUALITY_TESTS } from '../../hub/quality/tests.ts'

// through JSON, as the page gets them
const tests = JSON.parse(JSON.stringify(qualityTestsListed())) as ReturnType<typeof qualityTestsListed>
const unitOf = unitFinder(tests)
const cases = tests.flatMap((test) =>
  Object.entries(test.defaults).map(([quantity, { limits, unit }]) => ({ test, quantity, limits, unit })),
)
const named = (name: string) => tests.find((test) => test.name === name)!

describe('a form made from the hub’s schema', () => {
  it.each(cases.map((each) => [each.test.name, each.quantity, each] as const))(
    'gives the defaults of %s for %s back as they are, and the hub’s own schema reads them',
    (name, _, { test, limits, unit }) => {
      const typed = writtenOf(schemaOf(test), limits, unit)
      const read = readWritten(schemaOf(test), typed, unit)
      expect(read.faults).toEqual([])
      expect(read.limits).toEqual(limits)
      const own = QUALITY_TESTS.find((each) => each.name === name)!
      expect(own.config.safeParse(read.limits).success).toBe(true)
    },
  )
  it('has a field for every limit of every test, each with words of its own', () => {
    const shapes = (schema: LimitSchema): string[] => {
      const shape = shapeOf(schema)
      if (shape.kind === 'group') return shape.fields.flatMap(([, each]) => shapes(each))
      return shape.kind === 'maybe' ? shapes(shape.inner) : [shape.kind]
    }
    expect(tests.length).toBeGreaterThanOrEqual(18)
    for (const test of tests) {
      expect(shapes(schemaOf(test)), test.name).not.toContain('unknown')
      for (const name of Object.keys(schemaOf(test).properties ?? {}))
        expect(limitLabel(name), `${test.name} ${name}`).toMatch(/^[a-z][^A-Z_]+$/)
    }
  })
  it('begun blank says at each field that a number is missing', () => {
    const test = named('spike')
    const typed = writtenOf(schemaOf(test), undefined, 'lx')
    const { faults } = readWritten(schemaOf(test), typed, 'lx')
    expect(faults.map(({ path }) => path)).toEqual(['suspectDifference', 'failDifference'])
  })
  it('says in plain words what the schema has against a number', () => {
    const faultsOf = (name: string, fields: WrittenGroup['fields']) => {
      const limits = Object.values(named(name).defaults)[0]!.limits
      const typed = writtenOf(schemaOf(named(name)), limits, '')
      return readWritten(schemaOf(named(name)), { fields: { ...typed.fields, ...fields } }, '').faults
    }
    expect(faultsOf('spike', { suspectDifference: '0' })).toEqual([
      { path: 'suspectDifference', message: 'more than 0' },
    ])
    expect(faultsOf('gap', { gapAfterIntervals: '0.5' })[0]?.message).toBe('at least 1')
    expect(faultsOf('night-light', { sunBelowDegrees: '1' })[0]?.message).toBe('at most 0')
    expect(faultsOf('unlike-neighbours', { fewestNeighbours: '2.5' })[0]?.message).toBe('a whole number')
    expect(
      faultsOf('flat-line', {
        suspect: { fields: { repeats: 'x', durationMs: { number: '1', unit: 's' } } },
      }),
    ).toEqual([{ path: 'suspect.repeats', message: 'a number is missing here' }])
  })
  it('reads months and signal spans, leaving blank months away', () => {
    const test = named('seasonal-span')
    const typed = writtenOf(schemaOf(test), { monthlySpans: { 7: [10, 30] } }, 'Cel')
    const months = typed.fields['monthlySpans'] as readonly NamedSpan[]
    expect(months).toHaveLength(12)
    expect(readWritten(schemaOf(test), typed, 'Cel').limits).toEqual({ monthlySpans: { 7: [10, 30] } })
    const range = named('range')
    const own = { failSpan: [0, 14], suspectSpan: null, signalSpans: { mV: [-500, 500] } }
    expect(readWritten(schemaOf(range), writtenOf(schemaOf(range), own, 'pH'), 'pH').limits).toEqual(own)
  })
  it('says limits in words: a ratio as %, milliseconds as a length of time', () => {
    const moisture = cases.find(
      ({ test, quantity }) => test.name === 'spike' && quantity === 'soil_moisture',
    )!
    const lines = limitLines(
      schemaOf(moisture.test),
      writtenOf(schemaOf(moisture.test), moisture.limits, '/'),
      '/',
    )
    expect(lines.map(({ text }) => text)).toEqual(['in the unit of the quantity', '5 %', '15 %'])
    const dry = cases.find(({ test }) => test.name === 'ph-electrode-dry')!
    const [window] = limitLines(schemaOf(dry.test), writtenOf(schemaOf(dry.test), dry.limits, 'pH'), 'pH')
    expect(window).toEqual({ name: 'windowMs', label: 'looked at over', text: '6 min' })
  })
})

describe('numbers as typed', () => {
  it('move their digits exactly between a ratio and %', () => {
    for (const value of [0, 0.05, 0.15, 0.07, 0.29, 1.05, -0.05, 0.001, 1e-9, 0.1 + 0.2])
      expect(readWrittenNumber(writtenNumber(value, 2), 2)).toBe(value)
    expect(writtenNumber(0.07, 2)).toBe('7')
  })
  it('may have a decimal comma and a true minus sign, and nothing else', () => {
    expect(readWrittenNumber(' 0,5 ', 0)).toBe(0.5)
    expect(readWrittenNumber('−6', 0)).toBe(-6)
    for (const text of ['', '5 lx', '1,2,3', 'NaN', 'Infinity', '--1', '0x10'])
      expect(readWrittenNumber(text, 0)).toBeNull()
  })
  it('of time are written in the longest unit without a fraction', () => {
    expect(writtenDuration(360_000)).toEqual({ number: '6', unit: 'min' })
    expect(writtenDuration(86_400_000)).toEqual({ number: '1', unit: 'days' })
    expect(writtenDuration(90_000)).toEqual({ number: '90', unit: 's' })
    expect(writtenDuration(0)).toEqual({ number: '0', unit: 's' })
    for (const ms of [0, 0.5, 1, 1500, 60_000, 5_400_000]) {
      const { number, unit } = writtenDuration(ms)
      expect(durationMs(Number(number), unit)).toBe(ms)
    }
    expect(durationMs(0.1, 'h')).toBe(360_000)
  })
})

describe('settings of a survey', () => {
  const spike = named('spike')
  const key = draftKey('spike', 'soil_ph')
  const typed = (fields: WrittenGroup['fields']) => ({
    kind: 'own' as const,
    typed: {
      fields: { ...writtenOf(schemaOf(spike), spike.defaults['soil_ph']?.limits, 'pH').fields, ...fields },
    },
  })
  const others = { range: { wind_speed: 'off' as const } }
  it('keep only what differs from the defaults, and all that was there before', () => {
    expect(withDraft(tests, others, { [key]: typed({}) }, unitOf).settings).toEqual(others)
    const own = withDraft(tests, others, { [key]: typed({ failDifference: '2' }) }, unitOf).settings
    expect(own).toEqual({
      ...others,
      spike: { soil_ph: { differenceIs: 'absolute', suspectDifference: 0.3, failDifference: 2 } },
    })
    expect(withDraft(tests, own, { [key]: { kind: 'default' } }, unitOf).settings).toEqual(others)
    expect(withDraft(tests, own, { [key]: { kind: 'off' } }, unitOf).settings).toEqual({
      ...others,
      spike: { soil_ph: 'off' },
    })
    expect(changedSettings(others, own)).toEqual([{ test: 'spike', quantity: 'soil_ph' }])
    expect(changedSettings(own, structuredClone(own))).toEqual([])
  })
  it('do not switch off what is off by default', () => {
    expect(
      withDraft(tests, {}, { [draftKey('spike', 'illuminance')]: { kind: 'off' } }, unitOf).settings,
    ).toEqual({})
  })
  it('name their faults by the path that the hub uses too', () => {
    const { faults } = withDraft(tests, {}, { [key]: typed({ failDifference: '' }) }, unitOf)
    expect(faults).toEqual<Fault[]>([
      { path: 'quality.spike.soil_ph.failDifference', message: 'a number is missing here' },
    ])
    expect(faultPlace(faults[0]!)).toEqual({
      test: 'spike',
      quantity: 'soil_ph',
      path: 'failDifference',
      message: 'a number is missing here',
    })
    expect(faultPlace({ path: 'quality.range.soil_ph.failSpan[0]', message: '' })?.path).toBe('failSpan.0')
    expect(faultPlace({ path: 'quality.range.soil_ph', message: '' })?.path).toBe('')
    expect(faultPlace({ path: 'probes[0].id', message: '' })).toBeNull()
  })
})
