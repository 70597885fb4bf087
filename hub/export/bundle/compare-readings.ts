import type { StoreSnapshot } from '../store-snapshot.ts'
import { BUNDLE_PATHS } from './bundle-form.ts'
import { isSameNumber } from './compare-results.ts'
import { messagesInOrder, type StoredSignal } from './messages-in-order.ts'
import type { BundleFaults } from './verdict.ts'
import { numberIn, type WrittenReading, writtenReadings } from './written-readings.ts'

/**
 * Compares each reading of a bundle with the same reading worked out again: value, uncertainty, flag, calibration and
 * reasons. Both are in the order of messages and places.
 * @returns how many were compared
 */
export async function compareReadings(
  from: string,
  again: StoreSnapshot,
  boards: ReadonlySet<string>,
  faults: BundleFaults,
): Promise<number> {
  const recomputed = signalsOf(again, boards)
  let compared = 0
  for await (const written of writtenReadings(from)) {
    const next = recomputed.next()
    if (next.done) {
      faults.add(
        'reading',
        nameOf(written),
        'It could not be stored again: its message is missing or damaged.',
      )
      continue
    }
    compared++
    compareOne(written, next.value, faults)
  }
  for (const _more of recomputed)
    faults.add('reading', BUNDLE_PATHS.readings, 'It ends before the readings of its messages do.')
  return compared
}

function* signalsOf(again: StoreSnapshot, boards: ReadonlySet<string>): Generator<StoredSignal> {
  for (const slice of messagesInOrder(again.database, boards))
    for (const { readings } of slice) yield* readings
}

function compareOne(written: WrittenReading, again: StoredSignal, faults: BundleFaults): void {
  const numbers = [
    ['value', numberIn(written.value), again.value],
    ['uncertainty', numberIn(written.uncertainty), again.uncertainty],
    ['flag', numberIn(written.flag), again.flag],
  ] as const
  for (const [what, before, now] of numbers)
    if (!isSameNumber(before, now)) {
      const by = before === null || now === null ? '' : `, a difference of ${now - before}`
      faults.add(
        'reading',
        nameOf(written),
        `Its ${what} is ${before ?? 'empty'}, worked out again ${now ?? 'empty'}${by}.`,
      )
    }
  if (written.calibration !== (again.calibrationId ?? ''))
    faults.add(
      'reading',
      nameOf(written),
      `Its calibration is “${written.calibration}”, worked out again “${again.calibrationId ?? ''}”.`,
    )
  else if (numberIn(written.flag) === again.flag && written.why !== (again.why ?? ''))
    faults.add('reading', nameOf(written), 'The reasons of its flag come out differently.')
}

function nameOf({ message, place, board, channel, time }: WrittenReading): string {
  return `${board}/${channel} at ${time} (message ${message}, place ${place})`
}
