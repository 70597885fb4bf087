/** Bytes as they arrived, and when. A source adds nothing of its own but where they came from. */
export interface Frame {
  /** `serial:/dev/ttyUSB0`, `mqtt:CLIENT` or `capture:FILE` */
  source: string
  arrivedMs: number
  format: 'line' | 'pack' | 'columns'
  /** the board, where the source knows it: from the topic, or from the port's setting */
  board: string | null
  bytes: Uint8Array
  /** the source already knows that these bytes cannot be read */
  fault?: {
    code:
      | 'E_LINE_TOO_LONG'
      | 'E_LINE_UNREADABLE'
      | 'E_NOT_TEXT'
      | 'E_MESSAGE_TOO_LONG'
      | 'E_TOPIC'
      | 'E_BOARD_KEY'
      | 'E_BOARD_NAME'
    message: string
  }
}

/**
 * Called once a frame is durable, or with the error that keeps it from being so.
 * @param replies  gives the lines to answer its board
 */
export type Settled = (error: Error | null, replies: () => readonly string[]) => void

/** Where sources put what arrives. */
export type Receive = (frame: Frame, settled?: Settled) => void

/** 64 KiB: the longest line or message that is read. Longer ones go to quarantine in pieces of this size. */
export const MAX_FRAME_BYTES = 65_536
