/**
 * A name no other capture has, made where it is taken. On plain HTTP a browser has no `randomUUID`, but has random bytes.
 * @returns 36 hexadecimal digits and dashes, version 4 of RFC 9562
 */
export function newCaptureId(source: Pick<Crypto, 'getRandomValues'> & Partial<Crypto> = crypto): string {
  if (typeof source.randomUUID === 'function') return source.randomUUID()
  const bytes = source.getRandomValues(new Uint8Array(16))
  bytes[6] = (bytes[6]! & 0x0f) | 0x40
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  const digits = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return [
    digits.slice(0, 8),
    digits.slice(8, 12),
    digits.slice(12, 16),
    digits.slice(16, 20),
    digits.slice(20),
  ].join('-')
}
