import { expect, test } from 'vitest'
import { LineCeiling } from '../../../hub/sources/line-ceiling.ts'

const CEILING = 65_536

interface Passed {
  lines: string[]
  pieces: Buffer[]
}

function pass(chunks: readonly Uint8Array[], ceilingBytes: number): Passed {
  const pieces: Buffer[] = []
  const ceiling = new LineCeiling(ceilingBytes, (piece) => pieces.push(Buffer.from(piece)))
  const lines: string[] = []
  ceiling.on('data', (line: Buffer) => lines.push(line.toString('latin1')))
  for (const chunk of chunks) ceiling.write(chunk)
  while (ceiling.readableLength > 0) ceiling.read()
  return { lines, pieces }
}

function cutEvery(bytes: Uint8Array, step: number): Uint8Array[] {
  const chunks: Uint8Array[] = []
  for (let at = 0; at < bytes.length; at += step) chunks.push(bytes.subarray(at, at + step))
  return chunks
}

const lineOf = (length: number, end = '\n') => Buffer.from('a'.repeat(length) + end)

test('lines come out the same wherever the bytes were cut', async () => {
  const text = Buffer.from('[{"n":"a/x","v":1}]\r\n\n512,23.1,880\nä\r\r\n\xff\n', 'latin1')
  const whole = pass([text], CEILING).lines
  expect(whole).toEqual(['[{"n":"a/x","v":1}]\r\n', '\n', '512,23.1,880\n', 'ä\r\r\n', '\xff\n'])
  for (let cut = 0; cut <= text.length; cut++)
    expect(pass([text.subarray(0, cut), text.subarray(cut)], CEILING).lines).toEqual(whole)
  for (let step = 1; step <= text.length; step++)
    expect(pass(cutEvery(text, step), CEILING).lines).toEqual(whole)
})

test('a line of exactly the ceiling passes whole, whether it ends in LF or CR LF', () => {
  for (const end of ['\n', '\r\n'])
    for (const step of [1000, CEILING - 1, CEILING, CEILING + 1, CEILING + 2]) {
      const { lines, pieces } = pass(cutEvery(lineOf(CEILING, end), step), CEILING)
      expect([lines.length, pieces.length, lines[0]?.length]).toEqual([1, 0, CEILING + end.length])
    }
})

test('a line one byte above the ceiling comes out as too long, and the line after it is read', () => {
  for (const end of ['\n', '\r\n'])
    for (const step of [1000, CEILING, CEILING + 1, CEILING + 2, CEILING + 3, 1_000_000]) {
      const sent = Buffer.concat([lineOf(CEILING + 1, end), Buffer.from('next\n')])
      const { lines, pieces } = pass(cutEvery(sent, step), CEILING)
      expect(lines).toEqual(['next\n'])
      expect(Buffer.concat(pieces).equals(sent.subarray(0, -5))).toBe(true)
    }
})

test('every byte of a 1 MB line comes out, in order, in pieces no longer than a line may be', () => {
  const long = Buffer.alloc(1_000_000, 'abcdefghijklmnopqrstuvwxyz')
  for (const step of [4096, CEILING - 1, CEILING, CEILING + 1, CEILING + 2, 1_000_000]) {
    const sent = Buffer.concat([Buffer.from('before\n'), long, Buffer.from('\nafter\n')])
    const { lines, pieces } = pass(cutEvery(sent, step), CEILING)
    expect(lines).toEqual(['before\n', 'after\n'])
    expect(Buffer.concat(pieces).toString('latin1')).toBe(`${long.toString('latin1')}\n`)
    expect(Math.max(...pieces.map((piece) => piece.length))).toBeLessThanOrEqual(CEILING)
  }
})

test('with a small ceiling, no length and no cut loses, doubles or reorders a byte', () => {
  for (let length = 0; length <= 24; length++)
    for (let step = 1; step <= 26; step++) {
      const line = Buffer.from(`${'0123456789abcdefghijklmnopqrstuvwxyz'.slice(0, length)}\n`)
      const { lines, pieces } = pass(cutEvery(Buffer.concat([line, Buffer.from('z\n')]), step), 8)
      expect(lines.at(-1)).toBe('z\n')
      expect(Buffer.concat(pieces).toString() + lines.join('')).toBe(`${line}z\n`)
      expect(pieces.length > 0).toBe(length > 8)
    }
})

test('a line that never ends is handed on as it grows, and never held beyond the ceiling', () => {
  const pieces: Buffer[] = []
  const ceiling = new LineCeiling(CEILING, (piece) => pieces.push(piece))
  const chunk = Buffer.alloc(10_000, 'x')
  for (let sent = 0; sent < 300; sent++) {
    ceiling.write(chunk)
    const out = pieces.reduce((sum, piece) => sum + piece.length, 0)
    expect((sent + 1) * chunk.length - out).toBeLessThanOrEqual(CEILING + 1)
  }
})

test('what is held of a line that broke off can be taken out once', () => {
  const pieces: Buffer[] = []
  const ceiling = new LineCeiling(CEILING, (piece) => pieces.push(piece))
  ceiling.on('data', () => {})
  ceiling.write(Buffer.from('whole\nhal'))
  ceiling.write(Buffer.from('f'))
  expect(ceiling.takeRest().toString()).toBe('half')
  expect(ceiling.takeRest().length).toBe(0)
  expect(pieces).toEqual([])
})

test('noise is handed on before it has a line feed, every byte of it, and the next line is whole', () => {
  const noise = Buffer.alloc(1300, 0xe5)
  const { lines, pieces } = pass(cutEvery(Buffer.concat([noise, Buffer.from('tail\n1,2,3\n')]), 100), CEILING)
  expect(pieces.length).toBeGreaterThan(1)
  expect(Buffer.concat(pieces).toString('latin1').trimEnd()).toBe(`${noise.toString('latin1')}tail`)
  expect(lines).toEqual(['1,2,3\n'])
})

test('a long line of letters of several bytes is no noise wherever it is cut', () => {
  const text = Buffer.from(`${'ä°'.repeat(600)}\n`)
  for (const step of [1, 7, 511, 512, 513]) {
    const { lines, pieces } = pass(cutEvery(text, step), CEILING)
    expect(pieces).toEqual([])
    expect(lines.join('')).toBe(text.toString('latin1'))
  }
})
