import { expect, test } from 'vitest'
import { MAX_FRAME_BYTES } from '../../../hub/sources/source.ts'
import { readTopic, type TopicReading } from '../../../hub/sources/topic.ts'

const read = (topic: string, payload: string | Uint8Array = '[]') =>
  readTopic(topic, Buffer.from(payload as string), 'mqtt:test', 5)

function faultOf(reading: TopicReading): string | undefined {
  if (reading.kind !== 'frame') throw new Error('not a frame')
  return reading.frame.fault?.code
}

test('a pack and a line of columns are frames of the board their topic names, byte for byte', () => {
  for (const format of ['pack', 'columns'] as const)
    expect(read(`tussock/sedge-1.a_b/${format}`, 'x\xff')).toEqual({
      kind: 'frame',
      frame: { source: 'mqtt:test', arrivedMs: 5, format, board: 'sedge-1.a_b', bytes: Buffer.from('x\xff') },
    })
})

test('only "up" on the link topic means that a board is there', () => {
  expect(read('tussock/sedge-1/link', 'up')).toEqual({ kind: 'link', board: 'sedge-1', isUp: true })
  for (const payload of ['lost', '', 'UP', 'up ', 'down'])
    expect(read('tussock/sedge-1/link', payload)).toEqual({ kind: 'link', board: 'sedge-1', isUp: false })
})

test('topics no board publishes to are refused by name, and their bytes kept', () => {
  for (const topic of [
    'tussock',
    'tussock/sedge-1',
    'tussock/sedge-1/pack/more',
    'tussock//pack',
    'Tussock/sedge-1/pack',
    '/tussock/sedge-1/pack',
    'tussock/a/b/pack',
    'home/livingroom',
    'tussock/sedge-1/PACK',
    '',
  ]) {
    const reading = read(topic, 'kept')
    expect(faultOf(reading), topic).toBe('E_TOPIC')
    expect(reading).toMatchObject({ frame: { board: null, bytes: Buffer.from('kept') } })
  }
})

test('a topic with a board name that could not be a board’s is refused for that', () => {
  for (const name of ['-sedge', '.', '_a', 'a b', 'sédge', 'a'.repeat(65), 'a\n', '$SYS'])
    expect(faultOf(read(`tussock/${name}/pack`)), name).toBe('E_BOARD_NAME')
  expect(faultOf(read(`tussock/${'a'.repeat(64)}/pack`))).toBeUndefined()
})

test('a link from a board without a usable name is refused too', () => {
  expect(faultOf(read('tussock/-/link', 'up'))).toBe('E_BOARD_NAME')
})

test('a message of 64 KiB is read, one byte more is refused with its length', () => {
  expect(faultOf(read('tussock/a/pack', Buffer.alloc(MAX_FRAME_BYTES, '1')))).toBeUndefined()
  const longer = read('tussock/a/pack', Buffer.alloc(MAX_FRAME_BYTES + 1, '1'))
  expect(faultOf(longer)).toBe('E_MESSAGE_TOO_LONG')
  expect(longer).toMatchObject({
    frame: { board: 'a', fault: { message: expect.stringContaining('65537 bytes') } },
  })
})

test('a refusal quotes no more than the beginning of an endless topic', () => {
  const reading = read(`other/${'x'.repeat(60_000)}`)
  expect(reading.kind === 'frame' && reading.frame.fault?.message.length).toBeLessThan(200)
})

test('a request to a board, from a program beside the hub, is passed on and nothing of it is kept', () => {
  expect(read('tussock/sedge-1/ask', 'who')).toEqual({ kind: 'request' })
})
