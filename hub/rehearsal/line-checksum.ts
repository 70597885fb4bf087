/**
 * The trailer of a serial line, `#` and four hexadecimal digits: CRC-16/IBM-3740, bit by bit, as a small board
 * would work it out.
 */
export function checksumTrailer(line: Uint8Array): string {
  let crc = 0xffff
  for (const byte of line) {
    for (let bit = 7; bit >= 0; bit -= 1) {
      const carry = ((crc >> 15) ^ (byte >> bit)) & 1
      crc = (crc << 1) & 0xffff
      if (carry) crc ^= 0x1021
    }
  }
  return `#${crc.toString(16).toUpperCase().padStart(4, '0')}`
}
