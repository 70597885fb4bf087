import { get } from 'node:http'
import { gunzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { startHub } from '../../support/running-hub.ts'

/** A file as it comes over the wire, nothing unpacked. */
function raw(url: string, headers: Record<string, string>): Promise<{ bytes: Buffer; encoding: string }> {
  return new Promise((resolve, reject) => {
    get(url, { headers }, (response) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () =>
        resolve({ bytes: Buffer.concat(parts), encoding: response.headers['content-encoding'] ?? '' }),
      )
    }).on('error', reject)
  })
}

test('files of the page come packed to a browser that can unpack them, and the live stream never', async () => {
  const hub = await startHub()
  const [, script] = /src="(\/assets\/[^"]+\.js)"/.exec(await (await hub.request('/')).text())!
  const plain = await raw(`${hub.address}${script}`, {})
  const packed = await raw(`${hub.address}${script}`, { 'accept-encoding': 'gzip' })
  expect(plain.encoding).toBe('')
  expect(packed.encoding).toBe('gzip')
  expect(packed.bytes.length).toBeLessThan(plain.bytes.length / 2)
  expect(gunzipSync(packed.bytes).equals(plain.bytes)).toBe(true)
  const stream = await fetch(`${hub.address}/api/stream`, { headers: { 'accept-encoding': 'gzip' } })
  expect(stream.headers.get('content-encoding')).toBeNull()
  await stream.body!.cancel()
})
