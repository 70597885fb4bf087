import { appraiseWith } from '../../hub/intake/appraise.ts'
import { readFrame } from '../../hub/intake/read-frame.ts'
import { reviewWith } from '../../hub/quality/review.ts'
import { SqliteReader } from '../../hub/store/sqlite-reader.ts'
import { SqliteWriter } from '../../hub/store/sqlite-writer.ts'
import type { Outcome } from '../../hub/store/store.ts'
import { SurveyKeeper } from '../../hub/survey/keep-surveys.ts'

/** Wire, intake and store without sources or pages: packs in, rows out. */
export class SmallHub {
  readonly writer: SqliteWriter
  readonly reader: SqliteReader
  readonly keeper: SurveyKeeper

  constructor(folder: string) {
    this.writer = new SqliteWriter(folder)
    this.reader = new SqliteReader(folder)
    this.keeper = new SurveyKeeper(this.writer, () => 0)
  }

  /** Sends packs as one batch, all arriving at the same time. */
  send(arrivedMs: number, ...packs: unknown[]): Outcome[] {
    const items = packs.flatMap((pack) =>
      readFrame(
        { source: 'test', arrivedMs, format: 'line', board: null, bytes: Buffer.from(JSON.stringify(pack)) },
        this.keeper.columnsOf,
      ),
    )
    return this.writer.commit(items, appraiseWith(this.keeper.timelines))
  }

  /** Seals what has come and runs the quality tests of series over it. */
  review(): void {
    this.writer.seal()
    while (this.writer.reviewSome(reviewWith(this.keeper.timelines)) !== null);
  }

  recompute(rows = 4000): void {
    while (this.writer.recomputeSome(appraiseWith(this.keeper.timelines), rows) !== null);
  }

  /** Brings all rollups up to date. */
  roll(): void {
    while (this.writer.rollSome(true) !== null);
  }

  close(): void {
    this.reader.close()
    this.writer.close()
  }
}
