import { setTimeout as pause } from 'node:timers/promises'
import { connectAsync } from 'mqtt'
import { packText } from './class-messages.mjs'

/**
 * Boards that publish at a steady pace over MQTT until they are ended, each on a connection of its own.
 * Arguments: port, boards, messages of each in a second.
 */
const [port, count, hertz] = process.argv.slice(2).map(Number)
const boards = await Promise.all(
  Array.from({ length: count }, async (_, index) => {
    const name = `board-${index}`
    return { name, client: await connectAsync(`mqtt://127.0.0.1:${port}`, { clientId: `bench-${name}` }) }
  }),
)
console.log('publishing')
const begun = performance.now()
for (let message = 0; ; message++) {
  for (const { name, client } of boards)
    client.publish(`tussock/${name}/pack`, packText(name, message), { qos: 1 })
  // against the clock, so that a late turn is made good
  await pause(Math.max(0, begun + ((message + 1) * 1000) / hertz - performance.now()))
}
