import { mkdtemp, open, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { messageOf } from '../../errors.ts'
import { Study } from '../../study/study.ts'
import { Timelines } from '../../survey/timeline.ts'
import { UNSETTLED } from '../export-note.ts'
import { StoreSnapshot } from '../store-snapshot.ts'
import type { BundleManifest } from './bundle-form.ts'
import { bundleResults } from './bundle-results.ts'
import { checkFiles } from './check-files.ts'
import { compareReadings } from './compare-readings.ts'
import { compareResults } from './compare-results.ts'
import { type BundleContents, readBundle, readJson, readManifest } from './read-bundle.ts'
import { refuseBundle } from './refuse-bundle.ts'
import { boardsOf } from './related-surveys.ts'
import { replayBundle } from './replay-bundle.ts'
import { unpackArchive } from './unpack-archive.ts'
import { BundleFaults, type BundleVerdict } from './verdict.ts'
import { readZipDirectory } from './zip-directory.ts'

/**
 * Works a study bundle out again from its signals and compares every file, reading and result, in a folder that is gone
 * afterwards.
 * @returns the verdict, or a refusal when the file is no bundle or an unsafe one
 */
export async function verifyBundle(path: string, version: string): Promise<BundleVerdict | Refusal> {
  const work = await mkdtemp(join(tmpdir(), 'tussock-verify-'))
  try {
    return await verifyIn(work, path, version)
  } finally {
    await rm(work, { recursive: true, force: true })
  }
}

async function verifyIn(work: string, path: string, version: string): Promise<BundleVerdict | Refusal> {
  const from = join(work, 'bundle')
  const faults = new BundleFaults()
  const manifest = await unpackAndCheck(path, from, faults)
  if (isRefusal(manifest)) return manifest
  const agreed: string[] = []
  if (faults.total === 0) agreed.push(`${manifest.files.length} files have the bytes that the manifest says.`)
  const bundle = await readBundle(from, manifest)
  // a file that is known to be damaged need not be readable as well
  if (isRefusal(bundle) && faults.total === 0) return bundle
  if (isRefusal(bundle))
    faults.add('survey', 'the bundle', `It cannot be worked out again. ${bundle.message}`)
  else await workOutAgain(bundle, work, faults, agreed)
  const { survey, madeAt, software, isSettled } = manifest
  return {
    ...{ survey, madeAt, agreed },
    writtenBy: `${software.name} ${software.version}`,
    verifiedBy: `Tussock ${version}`,
    isAgreed: faults.total === 0,
    faults: faults.shown,
    counts: faults.counts,
    remarks: [
      ...(software.version === version
        ? []
        : [
            `It was written by version ${software.version}, this is ${version}: a difference may come from that.`,
          ]),
      ...(isSettled ? [] : [UNSETTLED]),
    ],
  }
}

async function unpackAndCheck(
  path: string,
  folder: string,
  faults: BundleFaults,
): Promise<BundleManifest | Refusal> {
  let file: Awaited<ReturnType<typeof open>>
  try {
    file = await open(path)
  } catch (error) {
    return refuseBundle('E_BUNDLE_FILE', `${path} cannot be read (${messageOf(error)}).`)
  }
  try {
    const entries = await readZipDirectory(file)
    if (isRefusal(entries)) return entries
    const unpacked = await unpackArchive(file, entries, folder)
    const manifest = await readManifest(folder)
    if (!isRefusal(manifest)) checkFiles(manifest, unpacked, faults)
    return manifest
  } finally {
    await file.close()
  }
}

async function workOutAgain(
  bundle: BundleContents,
  work: string,
  faults: BundleFaults,
  agreed: string[],
): Promise<void> {
  const { manifest, survey, otherSurveys } = bundle
  const [from, data] = [join(work, 'bundle'), join(work, 'data')]
  try {
    await replayBundle(bundle, from, data)
  } catch (error) {
    faults.add(
      'survey',
      'the bundle',
      `It cannot be worked out again: ${messageOf(error).replace(/\.?$/, '.')}`,
    )
    return
  }
  const store = new StoreSnapshot(data, true)
  try {
    const boards = boardsOf([survey, ...otherSurveys])
    const before = faults.counts.reading
    const compared = await compareReadings(from, store, boards, faults)
    if (compared !== manifest.readings)
      faults.add(
        'reading',
        'readings-all.csv',
        `The manifest says ${manifest.readings} readings, ${compared} are there.`,
      )
    if (faults.counts.reading === before)
      agreed.push(`${compared} readings come to the same values and flags.`)
    const timelines = new Timelines(store.surveys(), store.spots())
    const kept = timelines.surveys.find(({ id }) => id === survey.id)!
    const { window, hydrogenIons } = manifest.wish
    const wish = { window, withHydrogenIons: hydrogenIons === 'yes' }
    for (const [path, result] of await bundleResults(new Study(store, timelines, kept), wish)) {
      const stored = await readJson(from, path)
      if (isRefusal(stored)) continue // told among the files already
      const already = faults.counts.result
      const values = compareResults(path, stored.content, asWritten(result), faults)
      if (faults.counts.result === already) agreed.push(`${path}: ${values} values come to the same.`)
    }
  } finally {
    store.close()
  }
}

/** As JSON says it: what is not finite is null, what is undefined is not there. */
function asWritten(result: unknown): unknown {
  return JSON.parse(JSON.stringify(result))
}
