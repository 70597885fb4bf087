/** Something in a bundle that is not as it should be, in a sentence. */
export interface BundleFault {
  kind: 'file' | 'reading' | 'result' | 'survey'
  /** a path in the bundle, and within it */
  where: string
  text: string
}

/** What came of verifying a bundle. */
export interface BundleVerdict {
  survey: string
  madeAt: string
  writtenBy: string
  verifiedBy: string
  isAgreed: boolean
  /** sentences: what was compared and agrees */
  agreed: string[]
  /** of each kind the first few; `counts` tells of all */
  faults: BundleFault[]
  counts: Readonly<Record<BundleFault['kind'], number>>
  /** worth knowing, no fault in itself: another version, written while values were being worked out */
  remarks: string[]
}

const SHOWN_AT_MOST = 20

/** Gathers faults: all are counted, the first of each kind are told. */
export class BundleFaults {
  readonly shown: BundleFault[] = []
  readonly counts: Record<BundleFault['kind'], number> = { file: 0, reading: 0, result: 0, survey: 0 }

  add(kind: BundleFault['kind'], where: string, text: string): void {
    if (this.counts[kind]++ < SHOWN_AT_MOST) this.shown.push({ kind, where, text })
  }

  get total(): number {
    return Object.values(this.counts).reduce((sum, count) => sum + count, 0)
  }
}
