import { readdirSync, readFileSync } from 'node:fs'
import { getPriority } from 'node:os'
import { expect, test } from 'vitest'
import { startHub } from '../support/running-hub.ts'

// proc_pid_stat(5): the nineteenth field is the niceness
const NICENESS = 19

test('the thread that serves pages stands behind the one that stores what boards send', async () => {
  const hub = await startHub()
  const niceness = readdirSync(`/proc/${hub.pid}/task`).map((thread) => {
    const stat = readFileSync(`/proc/${hub.pid}/task/${thread}/stat`, 'utf8')
    const fromThird = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    return { isMain: Number(thread) === hub.pid, nice: Number(fromThird[NICENESS - 3]) }
  })
  expect(niceness.find(({ isMain }) => isMain)?.nice).toBe(getPriority())
  expect(niceness.some(({ isMain, nice }) => !isMain && nice === 5)).toBe(true)
  await hub.stop()
})
