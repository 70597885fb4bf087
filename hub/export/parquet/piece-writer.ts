import { ByteWriter } from 'hyparquet-writer'

/** Takes what the Parquet library writes and hands it over in pieces, so that a file is never held whole. */
export class PieceWriter extends ByteWriter {
  /** What was written since the last time. */
  take(): Uint8Array {
    const piece = this.getBytes().slice()
    this.index = 0
    return piece
  }
}
