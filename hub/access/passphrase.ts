import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto'
import { z } from 'zod'

/** A secret as it is kept: never the secret itself. */
export const KeptSecret = z.strictObject({
  salt: z.string(),
  hash: z.string(),
  cost: z.number().int(),
})
export type KeptSecret = z.infer<typeof KeptSecret>

/** scrypt N, with r = 8 and p = 1: about 0.1 s and 32 MB for each try on a laptop. @see RFC 7914 */
const COST = 2 ** 15
const BYTES = 32

export async function keepSecret(secret: string): Promise<KeptSecret> {
  const salt = randomBytes(16)
  const hash = await derive(secret, salt, COST)
  return { salt: salt.toString('base64'), hash: hash.toString('base64'), cost: COST }
}

/** Compares in constant time. */
export async function isSecret(given: string, kept: KeptSecret): Promise<boolean> {
  const hash = Buffer.from(kept.hash, 'base64')
  return timingSafeEqual(await derive(given, Buffer.from(kept.salt, 'base64'), kept.cost), hash)
}

/** Composed letters and what a phone's keyboard adds around them count as the same. */
function derive(secret: string, salt: Buffer, cost: number): Promise<Buffer> {
  const options: ScryptOptions = { N: cost, r: 8, p: 1, maxmem: 256 * cost * 8 }
  return new Promise((done, fail) => {
    scrypt(secret.trim().normalize('NFKC'), salt, BYTES, options, (error, key) =>
      error ? fail(error) : done(key),
    )
  })
}
