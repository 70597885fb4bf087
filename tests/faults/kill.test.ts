import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import mqtt from 'mqtt'
import { expect, test } from 'vitest'
import { startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const KILLS = Number(process.env['TUSSOCK_KILLS'] ?? 20)
const BOARDS = 4

/** A board that sends numbered messages as fast as it can and forgets one only when it is acknowledged. */
class Board {
  readonly name: string
  readonly acknowledged = new Set<number>()
  readonly #waiting = new Set<number>()
  #last = 0

  constructor(name: string) {
    this.name = name
  }

  get sent(): number {
    return this.#last
  }

  /** Sends until the connection breaks, or once `isEnough` until all is acknowledged. */
  async talk(url: string, isEnough: () => boolean): Promise<void> {
    const client = mqtt.connect(url, { reconnectPeriod: 0, clientId: this.name })
    client.on('error', () => {})
    const closed = new Promise<void>((resolve) => client.once('close', () => resolve()))
    let isClosed = false
    void closed.then(() => {
      isClosed = true
    })
    const publish = (number: number) => {
      this.#waiting.add(number)
      client.publish(`tussock/${this.name}/pack`, this.#pack(number), { qos: 1 }, (error) => {
        if (error) return
        this.acknowledged.add(number)
        this.#waiting.delete(number)
      })
    }
    for (const number of [...this.#waiting]) publish(number)
    while (!isClosed) {
      if (isEnough()) {
        if (this.#waiting.size === 0) break
      } else if (this.#waiting.size < 50) for (let k = 0; k < 10; k++) publish(++this.#last)
      await pause(1)
    }
    client.end(true)
    await closed
  }

  #pack(number: number): string {
    return JSON.stringify([
      { bn: `${this.name}/`, n: 'startup', v: 1 },
      { n: 'message', v: number },
      { n: 'x', u: 'mV', v: number },
      { n: 'y', u: 'Cel', v: number / 16 },
    ])
  }
}

test(`killed ${KILLS} times while readings pour in, the hub has lost nothing it acknowledged and doubled nothing`, async () => {
  const dataFolder = temporaryFolder()
  const boards = Array.from({ length: BOARDS }, (_, index) => new Board(`board-${index}`))
  const acknowledgedAt: number[] = []
  for (let kill = 0; kill <= KILLS; kill++) {
    const hub = await startHub({ dataFolder })
    const isLast = kill === KILLS
    const talking = boards.map((board) => board.talk(hub.mqttUrl, () => isLast))
    if (isLast) {
      await Promise.all(talking)
      await hub.stop()
      break
    }
    // anywhere in the life of a commit: the moments differ from run to run, the claim does not
    await pause(30 + Math.random() * 270)
    await hub.kill()
    await Promise.all(talking)
    acknowledgedAt.push(boards.reduce((sum, board) => sum + board.acknowledged.size, 0))

    const database = new Database(join(dataFolder, 'readings.sqlite'), { readonly: true })
    const rows = database
      .prepare(
        `SELECT board.name, message.number, count(*) AS n FROM every_reading AS r
         JOIN message ON message.id = r.id / 1024 JOIN board ON board.id = message.board
         GROUP BY board.name, message.number`,
      )
      .all() as { name: string; number: number; n: number }[]
    const integrity = database.pragma('integrity_check', { simple: true })
    database.close()
    expect(integrity).toBe('ok')
    for (const board of boards) {
      const kept = new Map(rows.filter(({ name }) => name === board.name).map(({ number, n }) => [number, n]))
      expect([...board.acknowledged].filter((number) => !kept.has(number))).toEqual([])
      for (const n of kept.values()) expect(n).toBe(2)
    }
  }
  const sent = boards.reduce((sum, board) => sum + board.sent, 0)
  for (const board of boards) expect(board.acknowledged.size).toBe(board.sent)
  const database = new Database(join(dataFolder, 'readings.sqlite'), { readonly: true })
  expect(database.prepare('SELECT count(*) FROM message').pluck().get()).toBe(sent)
  expect(database.prepare('SELECT count(*) FROM every_reading').pluck().get()).toBe(sent * 2)
  expect(database.prepare("SELECT count FROM tally WHERE name = 'readings'").pluck().get()).toBe(sent * 2)
  database.close()
  // the kills came while messages were being acknowledged, not before
  expect(acknowledgedAt.at(-1)).toBeGreaterThan(KILLS * 10)
}, 300_000)
