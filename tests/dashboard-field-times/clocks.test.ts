import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type CorrectionForm, readCorrectionForm } from '../../dashboard/field/clocks/correction-form.ts'
import { jumpOffers } from '../../dashboard/field/clocks/jump-offers.ts'
import { nextClockChange } from '../../dashboard/field/clocks/next-change.ts'
import { offsetOfPair, offsetText, readOffset } from '../../dashboard/field/clocks/offset-entry.ts'
import { secondsText } from '../../dashboard/seconds-text.ts'

// expected values of offsets follow from 60 s a minute and 60 min an hour

test.each([
  ['+1:00:00', 3600],
  ['1:00:00', 3600],
  ['-0:02:30', -150],
  ['\u22120:02:30', -150],
  ['-2:30', -150],
  ['+0:00:02.5', 2.5],
  ['+0:00:02,5', 2.5],
  ['8760:00:00', 31_536_000],
])('%s is an offset of %d s', (text, seconds) => {
  expect(readOffset(text)).toBe(seconds)
})

test.each(['', '90', '1:60:00', '1:00:60', '0:00:00', '1 h', '--1:00', '1:2:3:4'])(
  '“%s” is no offset',
  (text) => {
    expect(readOffset(text)).toBeNull()
  },
)

test('an offset that is written is read again as the same one', () => {
  fc.assert(
    fc.property(fc.integer({ min: -34_560_000_000, max: 34_560_000_000 }), (ms) => {
      fc.pre(ms !== 0)
      expect(readOffset(offsetText(ms / 1000))).toBe(ms / 1000)
    }),
  )
})

test('a clock that showed 10:00 when it truly was 11:00 has its readings moved an hour later', () => {
  expect(offsetOfPair(Date.parse('2026-06-12T10:00:00Z'), Date.parse('2026-06-12T11:00:00Z'))).toBe(3600)
})

test.each([
  // Directive 2000/84/EC: last Sunday of March and of October, at 01:00 UTC
  ['Europe/Berlin', '2026-06-12T00:00:00Z', '2026-10-25T01:00:00Z', -60],
  ['Europe/Berlin', '2026-11-25T00:00:00Z', '2027-03-28T01:00:00Z', 60],
  // Energy Policy Act of 2005: second Sunday of March, first Sunday of November, at 2:00 by the wall clock
  ['America/New_York', '2026-06-12T00:00:00Z', '2026-11-01T06:00:00Z', -60],
  ['America/New_York', '2026-11-25T00:00:00Z', '2027-03-14T07:00:00Z', 60],
  // tz database: Lord Howe goes by half an hour, first Sunday of April at 2:00 (+11:00), first of October at 2:00 (+10:30)
  ['Australia/Lord_Howe', '2026-06-12T00:00:00Z', '2026-10-03T15:30:00Z', 30],
])('%s after %s changes its clocks at %s by %d min', (zone, from, at, byMinutes) => {
  expect(nextClockChange(zone, Date.parse(from))).toEqual({ atMs: Date.parse(at), byMinutes })
})

test('a zone that keeps its time, or that is none, has no next change', () => {
  // Japan has had no summer time since 1952 (tz database)
  expect(nextClockChange('Asia/Tokyo', Date.parse('2026-06-12T00:00:00Z'))).toBeNull()
  expect(nextClockChange('Nowhere/Else', 0)).toBeNull()
})

test('a hub clock put an hour forward at 10:00 offers to move what it timed from its start to 9:00 by an hour', () => {
  const jump = {
    sinceMs: Date.parse('2026-06-12T08:00:00Z'),
    atMs: Date.parse('2026-06-12T10:00:00Z'),
    byMs: 3_600_000,
  }
  const [offer] = jumpOffers([jump], ['fern-1', 'moss-2'], [])
  expect(offer?.corrections.map(({ board }) => board)).toEqual(['fern-1', 'moss-2'])
  expect(offer?.corrections[0]).toMatchObject({
    from: '2026-06-12T08:00:00.000Z',
    to: '2026-06-12T09:00:00.000Z',
    offsetSeconds: 3600,
  })
  const kept = offer!.corrections.map((correction, index) => ({
    ...correction,
    id: `c${index + 1}`,
    at: correction.to,
  }))
  expect(
    jumpOffers([jump], ['fern-1', 'moss-2'], kept.slice(0, 1))[0]?.corrections.map(({ board }) => board),
  ).toEqual(['moss-2'])
  expect(jumpOffers([jump], ['fern-1', 'moss-2'], kept)).toEqual([])
  // put back by more than it had run: nothing was timed by the wrong clock after its start
  expect(jumpOffers([{ ...jump, byMs: 7_200_000 }], ['fern-1'], [])).toEqual([])
})

const form: CorrectionForm = {
  board: 'fern-1',
  from: '2026-06-12T10:00:00',
  to: '2026-06-12T12:00:00',
  way: 'offset',
  offset: '+1:00:00',
  showed: '',
  truly: '',
  errorSeconds: '2,5',
  reason: 'compared with the hub’s clock',
  by: ' G2 ',
}

test('a correction is read with its span in UTC and its error in seconds', () => {
  // Berlin is 2 h ahead of UTC in June (tz database)
  expect(readCorrectionForm(form, 'Europe/Berlin')).toEqual({
    correction: {
      board: 'fern-1',
      from: '2026-06-12T08:00:00.000Z',
      to: '2026-06-12T10:00:00.000Z',
      offsetSeconds: 3600,
      errorSeconds: 2.5,
      reason: 'compared with the hub’s clock',
      by: 'G2',
    },
  })
})

test.each([
  [{ board: '' }, 'board'],
  [{ to: form.from }, 'to'],
  [{ from: '' }, 'from'],
  [{ offset: 'an hour' }, 'offset'],
  [{ offset: '9601:00:00' }, 'offset'],
  [{ way: 'pair', showed: form.from, truly: form.from }, 'truly'],
  [{ errorSeconds: '-1' }, 'errorSeconds'],
  [{ reason: '' }, 'reason'],
] as const)('a wrong entry %j is said at its field', (part, field) => {
  const answer = readCorrectionForm({ ...form, ...part }, 'UTC')
  expect('wrong' in answer && Object.keys(answer.wrong)).toEqual([field])
})

test('an error is written in two figures, in the unit that suits it', () => {
  expect([0.04, 0.44, 1, 37, 150, 7200].map(secondsText)).toEqual(
    ['0.1 s', '0.4 s', '1 s', '37 s', '2.5 min', '2 h'].map((text) => text.replace(' ', '\u00a0')),
  )
})
