import type { Message } from './backlog.ts'
import type { BoardClock } from './board-clock.ts'

/** How a board tells when it measured. */
export type TimeStyle =
  /** seconds before sending, on every record */
  | { readonly kind: 'relative-records' }
  /** seconds before sending, once as base time */
  | { readonly kind: 'relative-base' }
  /** the board's own clock, once as base time */
  | { readonly kind: 'clock'; readonly clock: BoardClock }

type PackRecord = Record<string, string | number>

/**
 * The text of one SenML pack (RFC 8428). Relative times are worked out afresh at every sending.
 * @param nowMs  simulated milliseconds of the sending
 */
export function packText(board: string, message: Message, nowMs: number, style: TimeStyle): string {
  const ago = agoSeconds(message.sample.instantMs, nowMs)
  const base: PackRecord = { bn: `${board}/` }
  if (style.kind === 'relative-base') base['bt'] = ago
  if (style.kind === 'clock') base['bt'] = toThousandths(style.clock.secondsAt(message.sample.instantMs))
  const time = style.kind === 'relative-records' ? { t: ago } : {}

  const pack: PackRecord[] = [
    { ...base, n: 'startup', v: message.startup },
    { n: 'message', v: message.number },
  ]
  if (message.dropped > 0) pack.push({ n: 'dropped', v: message.dropped })
  if (message.about !== null) pack.push({ n: 'about', vs: message.about })
  for (const { channel, unit, signal } of message.sample.records) {
    pack.push({ n: channel, u: unit, v: signal, ...time })
  }
  return JSON.stringify(pack)
}

function agoSeconds(instantMs: number, nowMs: number): number {
  return Math.min(0, toThousandths((instantMs - nowMs) / 1000)) + 0
}

function toThousandths(seconds: number): number {
  return Math.round(seconds * 1000) / 1000
}
