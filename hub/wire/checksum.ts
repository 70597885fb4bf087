import { TRAILER } from '../contract/wire-names.ts'

const table = new Uint16Array(256)
for (let index = 0; index < 256; index++) {
  let crc = index << 8
  for (let bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? (crc << 1) ^ 0x1021 : crc << 1
  table[index] = crc & 0xffff
}

/**
 * CRC-16 of the trailer on a serial line: polynomial 0x1021, initial 0xFFFF, not reflected, no final XOR.
 * @see catalogue of parametrised CRC algorithms, CRC-16/IBM-3740 (check value of "123456789" is 0x29B1)
 */
export function crc16(bytes: Uint8Array): number {
  let crc = 0xffff
  for (const byte of bytes) crc = ((crc << 8) & 0xffff) ^ table[(crc >> 8) ^ byte]!
  return crc
}

export function withTrailer(text: string): string {
  return `${text}#${hex(crc16(Buffer.from(text, 'utf8')))}`
}

export type Checked = { ok: true; body: string } | { ok: false; stated: string; computed: string }

/** Takes the `#XXXX` trailer off a line, if there is one, and holds it against the bytes before it. */
export function checkTrailer(line: string): Checked {
  const trailer = TRAILER.exec(line)
  if (!trailer) return { ok: true, body: line }
  const body = line.slice(0, trailer.index)
  const computed = hex(crc16(Buffer.from(body, 'utf8')))
  return trailer[1] === computed ? { ok: true, body } : { ok: false, stated: trailer[1]!, computed }
}

function hex(crc: number): string {
  return crc.toString(16).toUpperCase().padStart(4, '0')
}
