import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { unzipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { ArchiveLedger, sha256OfAll } from '../../../hub/export/archive/archive-ledger.ts'
import { zipStream } from '../../../hub/export/archive/zip-stream.ts'
import { downloadName } from '../../../hub/export/download-name.ts'
import { madeAt } from './study-hub.ts'

async function wholeOf(pieces: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const parts: Uint8Array[] = []
  for await (const piece of pieces) parts.push(piece)
  return Buffer.concat(parts)
}

describe('an archive that is made while it is read', () => {
  test('unpacks to what went in, whatever the pieces', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(fc.uint8Array({ maxLength: 400 }), { maxLength: 5 }), { maxLength: 4 }),
        async (files) => {
          const ledger = new ArchiveLedger()
          const entries = files.map((pieces, index) => ledger.file(`folder/${index}.bin`, pieces))
          const unpacked = unzipSync(await wholeOf(zipStream(entries, madeAt)))
          for (const [index, pieces] of files.entries())
            expect(Buffer.concat(pieces).equals(unpacked[`folder/${index}.bin`]!)).toBe(true)
        },
      ),
      { numRuns: 30 },
    )
  })

  test('asks a file for its next piece only when the pieces before are taken', async () => {
    let asked = 0
    function* noise(): Generator<Uint8Array> {
      // incompressible, so that each piece fills a block of the archive
      for (; asked < 100; asked++) yield createHash('sha512').update(String(asked)).digest().subarray(0, 64)
      for (; asked < 200; asked++) {
        const block = new Uint8Array(200_000)
        for (let at = 0; at < block.length; at += 64)
          block.set(createHash('sha512').update(`${asked} ${at}`).digest(), at)
        yield block.subarray(0, 200_000)
      }
    }
    const pieces = zipStream([new ArchiveLedger().file('noise', noise())], madeAt)
    for (let taken = 0; taken < 3; taken++) await pieces.next()
    expect(asked).toBeLessThan(110)
    await pieces.return(undefined)
  })

  test('its ledger tells bytes and SHA-256 of each file, and of all together', async () => {
    const ledger = new ArchiveLedger()
    await wholeOf(zipStream([ledger.file('a', ['ab', 'c']), ledger.file('b', [])], madeAt))
    // SHA-256 of “abc” and of nothing: FIPS 180-4 examples, from memory; checked with sha256sum
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'
    const nothing = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'
    expect(ledger.lines).toEqual([
      { path: 'a', bytes: 3, sha256: abc },
      { path: 'b', bytes: 0, sha256: nothing },
    ])
    expect(sha256OfAll(ledger.lines)).toBe(
      createHash('sha256').update(`${abc}  a\n${nothing}  b\n`).digest('hex'),
    )
  })
})

describe('downloadName', () => {
  test('keeps letters and digits, loses paths and marks, and is never hidden or empty', () => {
    expect(downloadName(['Übung 1', 'tables'], 'zip')).toBe('Ubung-1-tables.zip')
    expect(downloadName(['../../etc/passwd', 'bundle'], 'zip')).toBe('etc-passwd-bundle.zip')
    expect(downloadName(['.hidden', ''], 'csv')).toBe('hidden.csv')
    expect(downloadName(['森'], 'csv')).toBe('survey.csv')
  })
  test('is safe for any text', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' })), (parts) => {
        expect(downloadName(parts, 'zip')).toMatch(/^[A-Za-z0-9_][A-Za-z0-9_-]{0,99}\.zip$/)
      }),
    )
  })
})
