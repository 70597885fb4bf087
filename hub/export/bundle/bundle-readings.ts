import { rfc3339 } from '../../clock.ts'
import { READINGS_PER_MESSAGE } from '../../store/store.ts'
import { type BundleMessage, READING_HEADINGS } from './bundle-form.ts'
import type { StoredMessage } from './messages-in-order.ts'

/** messages.jsonl: one line a message, with its bytes. */
export function* messageLines(slices: Iterable<StoredMessage[]>): Generator<string> {
  for (const slice of slices)
    yield slice
      .map(({ readings: _readings, bytes, ...message }) => {
        const line: BundleMessage = { ...message, bytes: Buffer.from(bytes).toString('base64') }
        return `${JSON.stringify(line)}\n`
      })
      .join('')
}

/**
 * readings-all.csv: one row a signal, in the order of messages and of places in them. Numbers have all their digits, so
 * that they read back to the same; the reading’s id on the hub is message × 1024 + place.
 */
export function* readingLines(slices: Iterable<StoredMessage[]>): Generator<string> {
  yield exactLine(READING_HEADINGS)
  for (const slice of slices)
    yield slice
      .flatMap(({ id, board, source, readings }) =>
        readings.map((each) =>
          exactLine([
            ...[id, each.id % READINGS_PER_MESSAGE, board, each.channelName, rfc3339(each.timeMs)],
            ...[each.signal, each.unit, source, each.value, each.uncertainty, each.flag],
            ...[each.calibrationId, each.why],
          ]),
        ),
      )
      .join('')
}

/** A line of RFC 4180 that reads back to the very same: no apostrophe is put before text. */
function exactLine(cells: readonly (string | number | null)[]): string {
  const exact = (cell: string | number | null) => {
    const text = String(cell ?? '')
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return `${cells.map(exact).join(',')}\r\n`
}
