import { describe, expect, it } from 'vitest'
import { understandPut } from '../../hub/rehearsal/put-request.ts'
import { putInWords } from '../../hub/rehearsal/put-words.ts'

const boards = ['fern-1', 'moss-2']
const put = (wish: object) => understandPut(JSON.stringify({ kind: 'put', board: 'fern-1', ...wish }), boards)

describe('a put', () => {
  it('takes the number that belongs to its medium, and 17 °C for a beaker when none is given', () => {
    const asked = { channel: 'ph', where: 'buffer-7', celsius: 12.5, lux: 4 }
    expect(put(asked)).toEqual({
      board: 'fern-1',
      channel: 'ph',
      medium: { where: 'buffer-7', celsius: 12.5 },
    })
    expect(put({ channel: 'ph', where: 'buffer-10' })).toMatchObject({ medium: { celsius: 17 } })
    expect(put({ channel: 'light', where: 'lamp', lux: 5000 })).toMatchObject({ medium: { lux: 5000 } })
    expect(put({ channel: 'wind', where: 'soil' })).toMatchObject({ medium: { where: 'soil' } })
  })

  it.each([
    [{ board: 'oak-9', channel: 'ph' }, 'There is no board “oak-9”; there are fern-1, moss-2.'],
    [{ channel: 'salt' }, 'fern-1 has no channel “salt”; there are ph, moisture, light, temperature, wind.'],
    [
      { channel: 'ph', where: 'lemonade' },
      'ph cannot be put into “lemonade”; there are buffer-4, buffer-7, buffer-10, water, air, soil.',
    ],
    [
      { channel: 'moisture', where: 'ice' },
      'moisture cannot be put into “ice”; there are air-dry, saturated, air, soil.',
    ],
    [{ channel: 'wind' }, 'wind cannot be put into “”; there are still, fan, soil.'],
    [{ channel: 'light', where: 'lamp' }, 'lamp needs lux, a number from 0 to 120000; none was given.'],
    [
      { channel: 'ph', where: 'buffer-7', celsius: 45 },
      'buffer-7 needs celsius, a number from 10 to 30; “45” was given.',
    ],
    [
      { channel: 'temperature', where: 'bath', celsius: 'warm' },
      'bath needs celsius, a number from -10 to 85; “warm” was given.',
    ],
    [{ kind: 'pour' }, 'The class can do nothing called “pour”; there is put.'],
  ])('is refused with what was wrong and what there is: %j', (wish, refused) => {
    expect(put(wish)).toEqual({ refused })
  })

  it.each(['put fern-1', '[1]', 'null', '{"kind":"put"'])(
    'is refused when it is no JSON object: %s',
    (line) => {
      expect(understandPut(line, boards)).toEqual({ refused: `“${line}” is no JSON object on one line.` })
    },
  )

  it('quotes no more than the beginning of a long line', () => {
    expect(understandPut('x'.repeat(5000), boards)).toEqual({
      refused: `“${'x'.repeat(60)}…” is no JSON object on one line.`,
    })
  })
})

describe('what was done', () => {
  it('is said in the trade’s words', () => {
    const words = (channel: string, where: string, more: object = {}) => {
      const done = put({ channel, where, ...more })
      if ('refused' in done) throw new Error(done.refused)
      return putInWords(done, 'Q1', null)
    }
    expect(words('ph', 'buffer-7')).toBe('fern-1: the pH electrode is in buffer 7 at 17 °C.')
    expect(words('moisture', 'air-dry')).toBe('fern-1: the moisture probe is in air-dry soil.')
    expect(words('light', 'lamp', { lux: 900 })).toBe(
      'fern-1: the light sensor is beside a reference meter that reads 900 lx.',
    )
    expect(words('temperature', 'soil')).toBe('fern-1: the thermometer is back at Q1.')
    expect(words('wind', 'fan', { metresPerSecond: 2.5 })).toBe(
      'fern-1: the cups are before a fan of 2.5 m/s.',
    )
  })
})
