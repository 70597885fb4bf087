import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkTrailer, crc16, withTrailer } from '../../../hub/wire/checksum.ts'

test('CRC-16/IBM-3740 of "123456789" is 0x29B1 (check value in the catalogue of parametrised CRC algorithms)', () => {
  expect(crc16(Buffer.from('123456789'))).toBe(0x29b1)
})

test('CRC-16 of nothing is its initial value', () => {
  expect(crc16(Buffer.alloc(0))).toBe(0xffff)
})

test('the trailer comes off a line whose bytes it fits, whatever they are', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const clean = Buffer.from(text).toString('utf8')
      expect(checkTrailer(withTrailer(clean))).toEqual({ ok: true, body: clean })
    }),
  )
})

test('every single changed bit of a line is noticed', () => {
  const line = withTrailer('[{"n":"sedge-1/ph","u":"mV","v":84.2}]')
  const bodyLength = line.length - 5
  for (let bit = 0; bit < bodyLength * 8; bit++) {
    const bytes = Buffer.from(line)
    bytes[bit >> 3]! ^= 1 << (bit & 7)
    const changed = bytes.toString('latin1')
    if (/[^\x20-\x7e]/.test(changed)) continue
    expect(checkTrailer(changed).ok).toBe(false)
  }
})

test('a line without a trailer passes as it is; lower-case digits are not a trailer', () => {
  expect(checkTrailer('512,23.1,880')).toEqual({ ok: true, body: '512,23.1,880' })
  expect(checkTrailer('512#29b1')).toEqual({ ok: true, body: '512#29b1' })
})

test('a wrong trailer says what it states and what the bytes give', () => {
  expect(checkTrailer('123456789#0000')).toEqual({ ok: false, stated: '0000', computed: '29B1' })
})
