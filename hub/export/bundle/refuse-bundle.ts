import type { Refusal } from '../../../calibration/index.ts'

/** Why a file cannot be verified at all. Messages are written where it happens. */
export const bundleRefusals = {
  E_BUNDLE_FILE: 'the file cannot be read, or is no ZIP archive',
  E_BUNDLE_UNSAFE: 'the archive would write outside its folder, or unpack to more than a bundle can be',
  E_BUNDLE_FORM: 'the archive is no study bundle, or of another form than this version reads',
} as const

export type BundleRefusalCode = keyof typeof bundleRefusals

export function refuseBundle(code: BundleRefusalCode, message: string): Refusal {
  return { refused: true, code, message }
}
