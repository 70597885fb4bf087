import { expect, test } from 'vitest'
import { Turns } from '../../../hub/http/turns.ts'

test('a device that asks for much at once keeps nobody waiting, and is answered in the end', async () => {
  const turns = new Turns()
  const begun: string[] = []
  const ask = async (address: string, isSlow: boolean) => {
    const done = await turns.wait(address)
    begun.push(address)
    if (isSlow) await new Promise((resolve) => setTimeout(resolve, 5))
    done()
  }
  const greedy = Array.from({ length: 100 }, () => ask('192.0.2.1', true))
  const others = ['192.0.2.2', '192.0.2.3', '192.0.2.2'].map((address) => ask(address, false))
  await Promise.all(others)
  expect(begun.length).toBeLessThan(12)
  await Promise.all(greedy)
  expect(begun).toHaveLength(103)
})

test('those that dawdle do not keep others of their address waiting for ever', async () => {
  const turns = new Turns()
  const dawdling = await Promise.all(Array.from({ length: 4 }, () => turns.wait('192.0.2.1')))
  const done = await turns.wait('192.0.2.1')
  done()
  for (const late of dawdling) late()
  const again = await Promise.all(Array.from({ length: 4 }, () => turns.wait('192.0.2.1')))
  expect(again).toHaveLength(4)
})

test('no more than a few of one address are worked on at a time', async () => {
  const turns = new Turns()
  let working = 0
  let most = 0
  await Promise.all(
    Array.from({ length: 40 }, async () => {
      const done = await turns.wait('192.0.2.1')
      most = Math.max(most, ++working)
      await new Promise((resolve) => setTimeout(resolve, 2))
      working--
      done()
    }),
  )
  expect(most).toBe(4)
})
