import type { Frame } from './source.ts'

/** What the broker's thread is started with. */
export interface BrokerSetting {
  host: string
  port: number
  tls: { cert: string; key: string; port: number } | null
  hashes: [board: string, hash: Uint8Array][]
  mayBeAnonymous: boolean
  /** the hub's clock: simulated ms are startMs + speed × (real ms − realStartMs) */
  clock: { startMs: number; speed: number; realStartMs: number } | null
}

/** What all frames of one client have in common. */
export type FrameHead = Pick<Frame, 'source' | 'format' | 'board' | 'fault'>

/**
 * Frames that came in one turn of the thread's event loop, numbered on from the batch before. Bytes cross over in one
 * piece, without being copied.
 */
export interface FrameBatch {
  heads: FrameHead[]
  /** by frame, its place in `heads` */
  headOf: Uint32Array
  arrivedMs: Float64Array
  /** by frame, where its bytes end in `bytes`; they begin where those of the frame before end */
  ends: Uint32Array
  bytes: Uint8Array
}

export type FromBrokerThread =
  | { kind: 'listening'; port: number; description: string }
  | { kind: 'failed'; code: string; message: string }
  | { kind: 'frames'; batch: FrameBatch }
  | { kind: 'link'; board: string; isUp: boolean }
  | { kind: 'closed' }

export type ToBrokerThread =
  /** frames, by their number, that are durable, or why they are not */
  | { kind: 'settled'; numbers: Float64Array; refused: [number: number, why: string][] }
  | { kind: 'keys'; hashes: [board: string, hash: Uint8Array][] }
  | { kind: 'say'; board: string; words: string }
  | { kind: 'close' }
