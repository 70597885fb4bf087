import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { messageOf } from '../../errors.ts'
import { readSurveyFile } from '../../survey/read-survey-file.ts'
import { BUNDLE_PATHS, BundleManifest, BundleSheets } from './bundle-form.ts'
import { refuseBundle } from './refuse-bundle.ts'

/** What is small of an unpacked bundle, read and checked; messages and readings stay in their files. */
export interface BundleContents {
  manifest: BundleManifest
  survey: SurveyFile
  otherSurveys: SurveyFile[]
  sheets: (BundleSheets[number] & { bytes: Uint8Array })[]
}

export async function readManifest(folder: string): Promise<BundleManifest | Refusal> {
  const written = await readJson(folder, BUNDLE_PATHS.manifest)
  if (isRefusal(written)) return written
  const manifest = BundleManifest.safeParse(written.content)
  if (manifest.success) return manifest.data
  const [issue] = manifest.error.issues
  return refuseBundle(
    'E_BUNDLE_FORM',
    `${BUNDLE_PATHS.manifest}: ${issue?.path.join('.') ?? ''}: ${issue?.message ?? ''}. It is of another form than this version reads, or damaged.`,
  )
}

export async function readBundle(
  folder: string,
  manifest: BundleManifest,
): Promise<BundleContents | Refusal> {
  const survey = await readJson(folder, BUNDLE_PATHS.survey)
  const others = await readJson(folder, BUNDLE_PATHS.otherSurveys)
  const listed = await readJson(folder, BUNDLE_PATHS.sheets)
  for (const each of [survey, others, listed]) if (isRefusal(each)) return each
  const surveys: SurveyFile[] = []
  for (const file of [contentOf(survey), ...[contentOf(others)].flat()]) {
    const read = readSurveyFile(file)
    if (read.survey === null)
      return refuseBundle(
        'E_BUNDLE_FORM',
        `A survey in it is faulty: ${read.faults.map(({ path, message }) => `${path}: ${message}`).join('; ')}.`,
      )
    surveys.push(read.survey)
  }
  const sheets = BundleSheets.safeParse(contentOf(listed))
  if (!sheets.success) return refuseBundle('E_BUNDLE_FORM', `${BUNDLE_PATHS.sheets} is no list of sheets.`)
  const known = new Set(manifest.files.map(({ path }) => path))
  const stray = sheets.data.find(({ path }) => !known.has(path))
  if (stray)
    return refuseBundle('E_BUNDLE_FORM', `A sheet is said to be in “${stray.path}”, which is not in it.`)
  const [main, ...otherSurveys] = surveys
  try {
    return {
      manifest,
      survey: main!,
      otherSurveys,
      sheets: await Promise.all(
        sheets.data.map(async (sheet) => ({ ...sheet, bytes: await readFile(join(folder, sheet.path)) })),
      ),
    }
  } catch (error) {
    return refuseBundle('E_BUNDLE_FORM', `A sheet is missing (${messageOf(error)}).`)
  }
}

/** @returns the content in a box, so that no content can pass for a refusal */
export async function readJson(folder: string, path: string): Promise<{ content: unknown } | Refusal> {
  let text: string
  try {
    text = await readFile(join(folder, path), 'utf8')
  } catch {
    return refuseBundle('E_BUNDLE_FORM', `It has no ${path}: it is no study bundle, or not a whole one.`)
  }
  try {
    return { content: JSON.parse(text) as unknown }
  } catch (error) {
    return refuseBundle('E_BUNDLE_FORM', `${path} is damaged (${messageOf(error)}).`)
  }
}

function contentOf(read: { content: unknown } | Refusal): unknown {
  return isRefusal(read) ? undefined : read.content
}
