import { TYPED_BOARD } from '../../../hub/contract/wire-names.ts'

import { momentText } from '../../format-time.ts'
import { secondsText } from '../../seconds-text.ts'
import { FieldMark } from '../field-marks.tsx'
import type { BoardTime } from './use-board-times.ts'

const ORIGINS: Record<string, string> = {
  'board clock': 'its own clock',
  'board seconds': 'seconds it counted, before its message arrived',
  arrival: 'the moment its message arrived',
  'shifted to arrival': 'arrival, because its own clock named an impossible time',
}

/** Each board: where its times come from, how wrong they may be, and why. */
export function BoardTable({ times, zone }: { times: readonly BoardTime[]; zone: string | undefined }) {
  if (times.length === 0) return <p>The survey has no board yet.</p>
  return (
    <table class="clock-table">
      <thead>
        <tr>
          <th scope="col">Board</th>
          <th scope="col">Its times are</th>
          <th scope="col">Right to about</th>
          <th scope="col">How that comes about</th>
        </tr>
      </thead>
      <tbody>
        {times.map(({ board, newest }) => (
          <tr key={board} data-board={board} data-origin={newest?.timeOrigin ?? 'none'}>
            <th scope="row">{board}</th>
            {newest === null ? (
              <td colSpan={3}>nothing has come from it yet</td>
            ) : (
              <>
                <td>
                  {board === TYPED_BOARD
                    ? 'when it was typed'
                    : (ORIGINS[newest.timeOrigin] ?? newest.timeOrigin)}
                  <small>newest {momentText(Date.parse(newest.time), zone)}</small>
                </td>
                <td class="clock-error">
                  {newest.timeErrorSeconds === null ? (
                    <>
                      <FieldMark state="fail" /> not known
                    </>
                  ) : (
                    <span class="figures">± {secondsText(newest.timeErrorSeconds)}</span>
                  )}
                </td>
                <td>{newest.timeErrorWhy}</td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
