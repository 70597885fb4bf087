import { writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { end, startProcess } from './hub-process.mjs'
import { freshFolder } from './measuring.mjs'

const script = (name) => fileURLToPath(new URL(name, import.meta.url))

function freePort() {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address()
      server.close(() => resolve(port))
    })
  })
}

async function startBroker() {
  const port = await freePort()
  const file = join(freshFolder(), 'broker.conf')
  writeFileSync(
    file,
    `listener ${port} 127.0.0.1\nallow_anonymous true\nmax_queued_messages 0\nlog_dest stderr\n`,
  )
  const { child } = await startProcess('mosquitto', ['-c', file], /running/)
  return { port, child }
}

async function throughBroker(program, args, connections, messages) {
  const broker = await startBroker()
  const subscribing = args.map((arg) => (arg === 'PORT' ? String(broker.port) : arg))
  const { child } = await startProcess(program, subscribing, /ready/)
  const done = new Promise((resolve) => child.stdout.on('data', (text) => text.includes('done') && resolve()))
  const begun = performance.now()
  const publisher = [script('lean-publisher.mjs'), broker.port, connections, messages, 500].map(String)
  await startProcess(process.execPath, publisher, /seconds/)
  await done
  const seconds = (performance.now() - begun) / 1000
  await end(child)
  await end(broker.child)
  return (connections * messages) / seconds
}

/**
 * The common way: a general broker and a short script that subscribes.
 * @param everySeconds how often the script commits; 0: each message
 * @returns messages a second until the last one is stored
 */
export function plainSubscriber(everySeconds, connections, messages) {
  const path = join(freshFolder(), 'plain.sqlite')
  const args = [script('plain-subscriber.py'), 'PORT', path, everySeconds, connections * messages].map(String)
  return throughBroker('/usr/bin/python3', args, connections, messages)
}

/** The same with a subscriber that only counts. @returns messages a second until the last one is counted */
export function countingSubscriber(connections, messages) {
  const args = [script('counting-subscriber.mjs'), 'PORT', String(connections * messages)]
  return throughBroker(process.execPath, args, connections, messages)
}
