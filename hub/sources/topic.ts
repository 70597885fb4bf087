import type { Frame } from './source.ts'
import { MAX_FRAME_BYTES } from './source.ts'

const TOPIC = /^tussock\/([^/]+)\/(pack|columns|link|ask)$/
const BOARD = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/

export type TopicReading =
  | { kind: 'frame'; frame: Frame }
  | { kind: 'link'; board: string; isUp: boolean }
  /** a request to a board, from a program beside the hub: passed on, nothing to keep */
  | { kind: 'request' }

/** What a message on an MQTT topic is to the hub: a board's frame, or word of its link. */
export function readTopic(
  topic: string,
  payload: Uint8Array,
  source: string,
  arrivedMs: number,
): TopicReading {
  const [, board, what] = TOPIC.exec(topic) ?? []
  const frame = (format: Frame['format'], fault?: Frame['fault']): TopicReading => ({
    kind: 'frame',
    frame: {
      source,
      arrivedMs,
      format,
      board: board && BOARD.test(board) ? board : null,
      bytes: payload,
      ...(fault ? { fault } : {}),
    },
  })
  const shown = topic.slice(0, 120)
  if (board === undefined || what === undefined)
    return frame('pack', { code: 'E_TOPIC', message: `Topic "${shown}" is not one a board publishes to.` })
  if (!BOARD.test(board))
    return frame('pack', { code: 'E_BOARD_NAME', message: `Topic "${shown}" has no usable board name.` })
  if (what === 'ask') return { kind: 'request' }
  if (what === 'link') return { kind: 'link', board, isUp: Buffer.from(payload).toString('latin1') === 'up' }
  if (payload.length > MAX_FRAME_BYTES)
    return frame('pack', {
      code: 'E_MESSAGE_TOO_LONG',
      message: `A message of ${payload.length} bytes on "${shown}"; ${MAX_FRAME_BYTES} are read.`,
    })
  return frame(what === 'pack' ? 'pack' : 'columns')
}
