import { join } from 'node:path'
import Database from 'better-sqlite3'
import { READINGS_EACH } from './sending-board.ts'

export interface KeptMessages {
  integrity: unknown
  /** by board, then by number of the message: how many readings there are of it */
  byBoard: Map<string, Map<number, number>>
}

/** What the database of a data folder holds of numbered messages, read without the hub's own code. */
export function keptMessages(dataFolder: string): KeptMessages {
  const database = new Database(join(dataFolder, 'readings.sqlite'), { readonly: true })
  try {
    const rows = database
      .prepare(
        `SELECT board.name, message.number, count(*) AS n FROM every_reading AS r
         JOIN message ON message.id = r.id / 1024 JOIN board ON board.id = message.board
         WHERE message.number IS NOT NULL GROUP BY board.name, message.number`,
      )
      .all() as { name: string; number: number; n: number }[]
    const byBoard = new Map<string, Map<number, number>>()
    for (const { name, number, n } of rows) {
      const of = byBoard.get(name) ?? new Map<number, number>()
      byBoard.set(name, of.set(number, n))
    }
    return { integrity: database.pragma('integrity_check', { simple: true }), byBoard }
  } finally {
    database.close()
  }
}

export interface Held {
  acknowledged: number
  /** messages in the store of the boards that were asked about */
  stored: number
  /** acknowledged, and not in the store */
  lost: number
  /** more than once in the store, or with other than all of their readings */
  doubled: number
}

/** What was acknowledged, held against what is kept. */
export function holdAgainst(
  { byBoard }: KeptMessages,
  boards: readonly { name: string; acknowledged: Iterable<number> }[],
  readingsEach = READINGS_EACH,
): Held {
  const held: Held = { acknowledged: 0, stored: 0, lost: 0, doubled: 0 }
  for (const { name, acknowledged } of boards) {
    const kept = byBoard.get(name) ?? new Map<number, number>()
    for (const number of acknowledged) {
      held.acknowledged++
      if (!kept.has(number)) held.lost++
    }
    held.stored += kept.size
    for (const n of kept.values()) if (n !== readingsEach) held.doubled++
  }
  return held
}
