import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isSenmlRefusal, readPack, resolvePack } from '../../../hub/wire/senml.ts'
import cases from '../../reference/senml-cases.json' with { type: 'json' }

// Source: RFC 8428 (2018) sections 4 and 5 and its examples, by tests/reference/senml-cases.json,
// which says for each case whether it was verified in the authors' repository or computed by the rules.
const NOW = 1_700_000_000

describe('RFC 8428 examples resolve as the RFC resolves them', () => {
  for (const { id, about, pack, resolved_at_now_1700000000: expected } of cases.cases)
    test(`${id}: ${about}`, () => {
      const resolved = resolvePack(pack, NOW)
      if (isSenmlRefusal(resolved)) throw new Error(resolved.message)
      // example 3 carries bver 5 while the default is 10: by the letter (§4.6) each resolved record carries it
      const bver = id === 'rfc-ex3' ? { bver: 5 } : {}
      expect(resolved.map(roundTime)).toEqual(expected.map((record) => roundTime({ ...record, ...bver })))
    })
})

/** Binary sums of decimal seconds differ in the last bits; a microsecond is far below any clock here. */
function roundTime<T extends { t: number }>(record: T): T {
  return { ...record, t: Math.round(record.t * 1e6) / 1e6 }
}

describe('packs the RFC refuses are refused with a reason', () => {
  for (const { why, pack } of cases.must_reject)
    test(why, () => {
      const answer = readPack(pack)
      expect(isSenmlRefusal(answer) && answer.message.length > 10).toBe(true)
    })
})

describe('packs the RFC allows are read', () => {
  for (const { why, pack } of cases.must_accept)
    test(why, () => expect(isSenmlRefusal(readPack(pack))).toBe(false))
})

test('base fields hold from their record on until they appear again (RFC 8428 §4.1)', () => {
  const pack = [
    { bn: 'a/', bu: 'mV', n: 'x', v: 1 },
    { bn: 'b/', n: 'x', v: 2 },
    { bu: 'V', n: 'x', v: 3 },
  ]
  const records = readPack(pack)
  if (isSenmlRefusal(records)) throw new Error(records.message)
  expect(records.map(({ name, unit }) => [name, unit])).toEqual([
    ['a/x', 'mV'],
    ['b/x', 'mV'],
    ['b/x', 'V'],
  ])
})

test('a number that JSON lets overflow to infinity is refused, alone or once its base is added', () => {
  for (const text of [
    '[{"n":"a","v":1e999}]',
    '[{"n":"a","bv":1.7e308,"v":1.7e308}]',
    '[{"n":"a","v":1,"t":1e999}]',
  ])
    expect(isSenmlRefusal(readPack(JSON.parse(text)))).toBe(true)
})

test('a pack of 1000 records is read, of 1001 refused as too many', () => {
  const pack = (n: number) => Array.from({ length: n }, () => ({ n: 'a', v: 1 }))
  expect(isSenmlRefusal(readPack(pack(1000)))).toBe(false)
  expect(readPack(pack(1001))).toMatchObject({ refused: true, tooMany: true })
})

test('no JSON value makes the decoder throw, and every value it gives is finite', () => {
  const fields = fc.record(
    {
      bn: fc.anything(),
      n: fc.oneof(fc.string(), fc.anything()),
      v: fc.oneof(fc.double(), fc.anything()),
      t: fc.oneof(fc.double(), fc.anything()),
      bt: fc.double(),
      bv: fc.double(),
      vs: fc.string(),
      x_: fc.anything(),
    },
    { requiredKeys: [] },
  )
  fc.assert(
    fc.property(fc.oneof(fc.anything(), fc.array(fields)), (pack) => {
      const records = readPack(pack)
      if (isSenmlRefusal(records)) return
      for (const record of records) {
        expect(Number.isFinite(record.value ?? 0)).toBe(true)
        expect(Number.isFinite(record.seconds)).toBe(true)
      }
    }),
    { numRuns: 2000 },
  )
})
