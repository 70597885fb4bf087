import { expect, test } from 'vitest'
import { type ClockJump, ClockWatch } from '../../hub/clock-watch.ts'

function watched() {
  let wallMs = 1_000_000
  let steadyMs = 0
  const told: ClockJump[] = []
  const watch = new ClockWatch(
    [],
    (jumps) => told.push(jumps.at(-1)!),
    () => wallMs,
    () => steadyMs,
  )
  const pass = (ms: number, setBy = 0) => {
    wallMs += ms + setBy
    steadyMs += ms
    watch.look()
  }
  return { watch, told, pass }
}

test('time that passes is no jump, and neither is a clock that is steered', () => {
  const { watch, told, pass } = watched()
  for (let second = 0; second < 3600; second++) pass(1000, 1)
  expect(told).toEqual([])
  watch.stop()
})

test('a clock that is set is noticed with how much and since when it had been wrong', () => {
  const { watch, told, pass } = watched()
  pass(60_000)
  pass(1000, 86_400_000)
  expect(told).toEqual([{ atMs: 1_000_000 + 61_000 + 86_400_000, byMs: 86_400_000, sinceMs: 1_000_000 }])
  pass(5000, -3_600_000)
  expect(told[1]).toMatchObject({ byMs: -3_600_000, sinceMs: told[0]!.atMs })
  expect(watch.jumps).toEqual(told)
  watch.stop()
})
