import { randomBytes } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { SendingBoard } from '../support/sending-board.ts'
import { CabledBoard } from '../support/serial-bench.ts'

const SECONDS = times(6)
/** far above what the hub needs (about 150 MB), far below what piling up what a flood brings would take */
const MOST_MEGABYTES = 600

function megabytesOf({ pid }: HubProcess): number {
  const [, kilobytes] = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))!
  return Number(kilobytes) / 1000
}

test(
  'beside one board that floods, two that send garbage and two of one name, quiet boards are all heard, memory stays bounded, and pages are told',
  async () => {
    const cabled = await CabledBoard.plugIn()
    const hub = await startHub({ args: ['--serial', cabled.path] })
    await cabled.hears('who')
    const quiet = [0, 1, 2].map((index) => new SendingBoard(`quiet-${index}`, { window: 1, pauseMs: 200 }))
    const flood = new SendingBoard('flood', { window: 500 })
    const twins = [1, 2].map((offset) => new SendingBoard('twin', { window: 1, pauseMs: 100, offset }))
    let isEnough = false
    const talking = [...quiet, flood, ...twins].map((board) => board.talk(hub.mqttUrl, () => isEnough))
    const stranger = await connectMqtt(hub.mqttUrl)
    let garbage = 0
    const noise = (async () => {
      while (!isEnough) {
        // no valid UTF-8 begins with such a byte
        await stranger.publishAsync(
          'tussock/noise/pack',
          Buffer.concat([Buffer.of(0xff), randomBytes(300)]),
          { qos: 1 },
        )
        garbage++
      }
    })()
    let cabledLines = 0
    let peak = 0
    for (let tenth = 0; tenth < SECONDS * 10; tenth++) {
      cabled.say(Buffer.concat([Buffer.alloc(50, 0xff), Buffer.from(` ${cabledLines++}\n`)]))
      peak = Math.max(peak, megabytesOf(hub))
      await pause(100)
    }
    isEnough = true
    await Promise.all([...talking, noise])
    // two boards of one name: told, and what cannot be told apart is put aside
    const { boards } = await hub.until(
      () => hub.directory(),
      ({ boards }) => boards.some(({ name, trouble }) => name === 'twin' && trouble !== null),
    )
    expect(boards.filter(({ trouble }) => trouble !== null).map(({ name }) => name)).toEqual(['twin'])
    const codes = new Set((await hub.quarantined()).map(({ code }) => code))
    expect(codes).toContain('E_NOT_TEXT')
    const clashes =
      twins.reduce((sum, twin) => sum + twin.sent, 0) - Math.max(...twins.map(({ sent }) => sent))
    const { tallies } = await hub.until(
      () => hub.now(),
      ({ tallies }) => tallies.quarantined >= garbage + cabledLines + clashes,
    )
    expect(tallies.quarantined).toBe(garbage + cabledLines + clashes)
    expect(peak).toBeLessThan(MOST_MEGABYTES)
    const quietSent = quiet.reduce((sum, { sent }) => sum + sent, 0)
    expect(flood.sent).toBeGreaterThan((100 * quietSent) / quiet.length)
    expect(await hub.stop()).toMatchObject({ code: 0 })
    expect(hub.stderr).toBe('')
    const held = holdAgainst(
      keptMessages(hub.dataFolder),
      [...quiet, flood].map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() })),
    )
    const sent = quietSent + flood.sent
    expect(held).toEqual({ acknowledged: sent, stored: sent, lost: 0, doubled: 0 })
    for (const { sent } of quiet) expect(sent).toBeGreaterThan(SECONDS)
    tellCounts({
      what: 'a flood, garbage and a cloned name beside quiet boards',
      times: 1,
      sent,
      ...held,
      megabytes: Math.round(peak),
    })
  },
  LONG_MS,
)
