import makeMulticastDns from 'multicast-dns'
import { afterEach, expect, test } from 'vitest'
import { addressesOf } from '../../../hub/http/addresses.ts'
import { LocalName } from '../../../hub/http/local-name.ts'

const ended: (() => void)[] = []
afterEach(() => {
  for (const end of ended.splice(0)) end()
})

/** A link of its own, so that nothing on the machine's network is asked. */
let port = 20_000 + (process.pid % 20_000)
const ownLink = () => ({ port: ++port, interface: '127.0.0.1', bind: '0.0.0.0' })

function named(address: string, link: ReturnType<typeof ownLink>): LocalName {
  const name = new LocalName({ name: 'tussock', addresses: () => [address], link })
  ended.push(() => name.stop())
  return name
}

test('a hub for this computer only says that phones cannot reach it', () => {
  expect(addressesOf('127.0.0.1', 4780, null)).toEqual([
    { url: 'http://127.0.0.1:4780', kind: 'loopback', isReachableByPhones: false },
  ])
})

test('a hub for the network gives each address of the machine, its name, and its own', () => {
  // addresses for documentation: RFC 5737
  expect(addressesOf('0.0.0.0', 4780, 'tussock.local', 'https', ['192.0.2.7', '198.51.100.3'])).toEqual([
    { url: 'https://192.0.2.7:4780', kind: 'network', isReachableByPhones: true },
    { url: 'https://198.51.100.3:4780', kind: 'network', isReachableByPhones: true },
    { url: 'https://tussock.local:4780', kind: 'name', isReachableByPhones: true },
    { url: 'https://127.0.0.1:4780', kind: 'loopback', isReachableByPhones: false },
  ])
  expect(addressesOf('2001:db8::7', 80, null)[0]!.url).toBe('http://[2001:db8::7]:80')
})

// RFC 6762: the other end is a resolver made with the library alone
test('a resolver that asks for the .local name is told the address', async () => {
  const link = ownLink()
  const name = named('192.0.2.7', link)
  expect(await name.claim()).toBe('tussock.local')
  const resolver = makeMulticastDns(link)
  ended.push(() => resolver.destroy())
  const answer = new Promise((resolve) => {
    resolver.on('response', ({ answers = [] }) =>
      resolve(
        answers.map(({ type, name: asked, ...rest }) => ({
          type,
          asked,
          data: 'data' in rest ? rest.data : null,
        })),
      ),
    )
  })
  resolver.query('Tussock.local', 'A')
  expect(await answer).toContainEqual({ type: 'A', asked: 'tussock.local', data: '192.0.2.7' })
})

test('a second hub on the network takes the next name', async () => {
  const link = ownLink()
  expect(await named('192.0.2.7', link).claim()).toBe('tussock.local')
  expect(await named('192.0.2.8', link).claim()).toBe('tussock-2.local')
})
