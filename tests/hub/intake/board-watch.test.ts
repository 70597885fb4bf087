import { expect, test } from 'vitest'
import { BoardWatch } from '../../../hub/intake/board-watch.ts'

test('of names invented without end the newest are known, and a board that goes on talking is never forgotten', () => {
  const watch = new BoardWatch()
  for (let number = 0; number < 5000; number++) {
    watch.heard(`invented-${number}`, 'mqtt:x', number, 1, number)
    watch.heard('sedge-1', 'mqtt:sedge-1', number, 1, number)
  }
  const names = watch.seen().map(({ name }) => name)
  expect(names).toHaveLength(1000)
  expect(names).toContain('sedge-1')
  expect(names).toContain('invented-4999')
  expect(names).not.toContain('invented-4000')
  expect(watch.seen().find(({ name }) => name === 'sedge-1')).toMatchObject({ messages: 5000, missed: 0 })
})
