import { createServer } from 'node:net'
import { Aedes } from 'aedes'

/** The embedded broker's engine with nothing behind it: what a hub could at best acknowledge. */
const broker = await Aedes.createBroker({ concurrency: 1000, queueLimit: 1000, maxClientsIdLength: 128 })
const server = createServer(broker.handle)
server.listen(0, '127.0.0.1', () => console.log(`port ${server.address().port}`))
