import { z } from 'zod'
import { studyExportQuery } from '../../contract/export-api.ts'
import { Instant } from '../../contract/names.ts'
import { SpeciesAnswers } from '../../contract/species.ts'

/** Where things are within a bundle. */
export const BUNDLE_PATHS = {
  readme: 'README.txt',
  survey: 'survey.json',
  otherSurveys: 'other-surveys.json',
  messages: 'messages.jsonl',
  readings: 'readings-all.csv',
  sheets: 'sheets.json',
  summary: 'results/summary.json',
  join: 'results/join.json',
  statistics: 'results/statistics.json',
  catches: 'results/catches.json',
  manifest: 'manifest.json',
} as const

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256, 64 hexadecimal digits')

/** The last file of a bundle: what the others are, by what they were made, and how. */
export const BundleManifest = z.strictObject({
  tussockBundle: z.literal(1),
  survey: z.string(),
  software: z.strictObject({ name: z.literal('Tussock'), version: z.string() }),
  madeAt: Instant,
  /** how the results were asked for */
  wish: studyExportQuery.pick({ window: true, hydrogenIons: true }),
  licence: z.string().nullable(),
  /** false: values were still being worked out anew */
  isSettled: z.boolean(),
  messages: z.number().int().min(0),
  readings: z.number().int().min(0),
  files: z.array(z.strictObject({ path: z.string(), bytes: z.number().int().min(0), sha256: Sha256 })),
  /** of the lines “hash, two spaces, path, line feed” of all files above */
  sha256OfAll: Sha256,
})
export type BundleManifest = z.infer<typeof BundleManifest>

/** A line of messages.jsonl: a message as it came; its signals are in readings-all.csv. */
export const BundleMessage = z.strictObject({
  id: z.number().int().positive(),
  board: z.string(),
  source: z.string(),
  arrivedMs: z.number(),
  startup: z.number().nullable(),
  number: z.number().nullable(),
  timeOrigin: z.enum(['board clock', 'board seconds', 'arrival', 'shifted to arrival']),
  shiftMs: z.number(),
  /** base64 */
  bytes: z.string(),
})
export type BundleMessage = z.infer<typeof BundleMessage>

export const BundleSheets = z.array(
  z.strictObject({
    path: z.string(),
    kind: z.enum(['species', 'animals']),
    name: z.string(),
    atMs: z.number(),
    by: z.string().nullable(),
    answers: SpeciesAnswers,
    isRemoved: z.boolean(),
  }),
)
export type BundleSheets = z.infer<typeof BundleSheets>

/** The columns of readings-all.csv: what came, then what was made of it. */
export const READING_HEADINGS = [
  'message',
  'place',
  'board',
  'channel',
  'time',
  'signal',
  'signal_unit',
  'source',
  'value',
  'uncertainty',
  'flag',
  'calibration',
  'why',
] as const
