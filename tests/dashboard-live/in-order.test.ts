import { expect, it } from 'vitest'
import { inOrder } from '../../dashboard/in-order.ts'

it('takes an answer unless one to a later question was taken before it', () => {
  const ask = inOrder()
  const [first, second, third] = [ask(), ask(), ask()]
  expect(second!()).toBe(true)
  expect(first!()).toBe(false)
  expect(third!()).toBe(true)
  expect(ask()()).toBe(true)
})
