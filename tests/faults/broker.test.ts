import { setTimeout as pause } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { RealBroker } from '../support/real-broker.ts'
import { startHub } from '../support/running-hub.ts'
import { SendingBoard } from '../support/sending-board.ts'

/*
 * A broker that is switched off in order writes down what it holds. One that is killed has forgotten what it had not
 * handed over yet, although it had acknowledged it: that is between boards and broker, and no hub can mend it. So before a
 * kill the boards fall silent until the hub has caught up; it is switched off in the middle of their talk.
 */

const TURNS = times(4)

test(
  `an outside broker that is killed and switched off by turns, ${TURNS} times: what boards published and it acknowledged is stored once`,
  async () => {
    const broker = await RealBroker.start()
    const hub = await startHub({ args: ['--broker', broker.url] })
    const linkIs = (state: string) =>
      hub.until(
        () => hub.now(),
        (now) => now.broker.state === state,
      )
    await linkIs('open')
    // what a broker knows of its subscribers is on its disk once it has been switched off in order, or by its own timer
    await broker.stop()
    await linkIs('gone')
    await broker.start()
    await linkIs('open')
    const boards = [0, 1, 2].map((index) => new SendingBoard(`board-${index}`, { window: 1, pauseMs: 10 }))
    const acknowledged = () => boards.reduce((sum, board) => sum + board.acknowledged.size, 0)
    const caughtUp = () =>
      hub.until(
        () => hub.now(),
        ({ tallies }) => tallies.messages >= acknowledged(),
      )
    for (let turn = 0; turn < TURNS; turn++) {
      const isKill = turn % 2 === 0
      let isEnough = false
      const talking = boards.map((board) => board.talk(broker.url, () => isEnough))
      await pause(100 + Math.random() * 300)
      if (isKill) {
        isEnough = true
        await Promise.all(talking)
        await caughtUp()
        await broker.kill()
      } else await broker.stop()
      await Promise.all(talking)
      expect((await linkIs('gone')).broker.trouble).toMatch(/^E_BROKER_GONE: .*Start the broker again/)
      // boards are back before the hub is: it tries every two seconds
      await broker.start()
    }
    await Promise.all(boards.map((board) => board.talk(broker.url, () => true)))
    await caughtUp()
    await hub.stop()
    const sent = boards.reduce((sum, board) => sum + board.sent, 0)
    const held = holdAgainst(
      keptMessages(hub.dataFolder),
      boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() })),
    )
    expect(held).toEqual({ acknowledged: sent, stored: sent, lost: 0, doubled: 0 })
    expect(sent).toBeGreaterThan(TURNS * 10)
    tellCounts({ what: 'outside broker killed or switched off, and back', times: TURNS, sent, ...held })
  },
  LONG_MS,
)
