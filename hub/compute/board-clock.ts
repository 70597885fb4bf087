import { z } from 'zod'
import { fitBoardClock, isRefusal, refuse } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const boardClock = defineComputation({
  name: 'board-clock',
  title: 'Time of a reading from the uptime of a board without a clock',
  source: 'straight line through two moments known on both clocks',
  units: {
    'syncs.uptimeMs': 'ms',
    'syncs.at': 'ISO 8601',
    uptimeMs: 'ms',
    at: 'ISO 8601, UTC',
    fastPpm: '10⁻⁶',
  },
  input: z.object({
    syncs: z.array(z.object({ uptimeMs: number, at: z.string() })),
    uptimeMs: number,
  }),
  output: z.object({ at: z.string(), fastPpm: number, isRateKnown: z.boolean() }),
  run({ syncs, uptimeMs }) {
    const bad = syncs.find((sync) => Number.isNaN(Date.parse(sync.at)))
    if (bad !== undefined)
      return refuse('E_NOT_FINITE', `“${bad.at}” is no date and time; write 2026-05-06T10:00:00Z.`)
    const clock = fitBoardClock(syncs.map((sync) => ({ uptimeMs: sync.uptimeMs, atMs: Date.parse(sync.at) })))
    if (isRefusal(clock)) return clock
    const atMs = Math.round(clock.timeAt(uptimeMs))
    if (Math.abs(atMs) > 8.64e15)
      return refuse('E_INTERVAL', `An uptime of ${uptimeMs} ms lies outside the calendar.`)
    return { at: new Date(atMs).toISOString(), fastPpm: clock.fastPpm, isRateKnown: clock.isRateKnown }
  },
})
