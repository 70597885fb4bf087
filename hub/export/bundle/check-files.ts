import { sha256OfAll } from '../archive/archive-ledger.ts'
import { BUNDLE_PATHS, type BundleManifest } from './bundle-form.ts'
import type { Unpacked } from './unpack-archive.ts'
import type { BundleFaults } from './verdict.ts'

/** Every file of the manifest is there with its own bytes, and no other; each that is not is named. */
export function checkFiles(
  manifest: BundleManifest,
  unpacked: readonly Unpacked[],
  faults: BundleFaults,
): void {
  const found = new Map(unpacked.map((each) => [each.path, each]))
  for (const { path, bytes, sha256 } of manifest.files) {
    const file = found.get(path)
    found.delete(path)
    if (!file) faults.add('file', path, 'It is missing.')
    else if (file.trouble) faults.add('file', path, `It cannot be unpacked whole: ${file.trouble}.`)
    else if (file.bytes !== bytes)
      faults.add('file', path, `It has ${file.bytes} bytes, the manifest says ${bytes}.`)
    else if (file.sha256 !== sha256)
      faults.add('file', path, 'A byte of it was changed: its SHA-256 is not that of the manifest.')
  }
  found.delete(BUNDLE_PATHS.manifest)
  for (const path of found.keys()) faults.add('file', path, 'The manifest does not know it.')
  if (sha256OfAll(manifest.files) !== manifest.sha256OfAll)
    faults.add(
      'file',
      BUNDLE_PATHS.manifest,
      'Its list of files was changed: their common SHA-256 is another.',
    )
}
