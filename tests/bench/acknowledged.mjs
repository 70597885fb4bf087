import { fileURLToPath } from 'node:url'
import { BareTable } from './bare-tables.mjs'
import { boardNames, READINGS_PER_MESSAGE, surveyOf } from './class-messages.mjs'
import { end, startHub, startProcess } from './hub-process.mjs'
import { byTurns, freshFolder, memoryOf, secondsOf } from './measuring.mjs'
import { countingSubscriber, plainSubscriber } from './plain-subscriber.mjs'

const CONNECTIONS = 4
const MESSAGES = 8000
const IN_FLIGHT = 500
const READINGS = CONNECTIONS * MESSAGES * READINGS_PER_MESSAGE
const script = (name) => fileURLToPath(new URL(name, import.meta.url))

async function publishTo(port) {
  const args = [script('lean-publisher.mjs'), port, CONNECTIONS, MESSAGES, IN_FLIGHT].map(String)
  const { match } = await startProcess(process.execPath, args, /seconds (\S+)/)
  return Number(match[1])
}

async function throughHub() {
  const hub = await startHub(freshFolder())
  const saved = await fetch(`${hub.address}/api/surveys/bench`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(surveyOf(boardNames(CONNECTIONS))),
  })
  if (!saved.ok) throw new Error(await saved.text())
  const seconds = await publishTo(hub.mqttPort)
  const { tallies } = await (await fetch(`${hub.address}/api/hub`)).json()
  if (tallies.readings !== READINGS) throw new Error(`${tallies.readings} readings stored, not ${READINGS}`)
  const { highest } = memoryOf(hub.pid)
  await hub.stop()
  return { readings: READINGS / seconds, megabytes: highest }
}

async function throughBareBroker() {
  const { child, match } = await startProcess(process.execPath, [script('bare-broker.mjs')], /port (\d+)/)
  const seconds = await publishTo(Number(match[1]))
  await end(child)
  return { readings: READINGS / seconds }
}

async function bareInserts() {
  const table = new BareTable(freshFolder(), 'log')
  const batches = Array.from({ length: READINGS / 1000 }, (_, batch) =>
    Array.from({ length: 1000 }, (_, place) => {
      const id = batch * 1000 + place
      return [id % 20, 1.78e12 + id, id, 84.2, 5.6, 0.05, 1, 1, null]
    }),
  )
  const seconds = await secondsOf(() => {
    for (const batch of batches) table.add(batch)
  })
  table.close()
  return { readings: READINGS / seconds }
}

/** Readings a second over MQTT at QoS 1, each acknowledged after it is durable, against what bounds it. */
export async function measureAcknowledged(runs) {
  const script = (everySeconds, messages) => async () => ({
    readings: READINGS_PER_MESSAGE * (await plainSubscriber(everySeconds, CONNECTIONS, messages)),
  })
  const { hub, broker, inserts, counting, eachCommitted, eachSecond } = await byTurns(runs, {
    hub: throughHub,
    broker: throughBareBroker,
    inserts: bareInserts,
    counting: async () => ({
      readings: READINGS_PER_MESSAGE * (await countingSubscriber(CONNECTIONS, MESSAGES)),
    }),
    eachCommitted: script(0, 500),
    eachSecond: script(1, 4000),
  })
  return [
    {
      what: `acknowledged over MQTT QoS 1, ${CONNECTIONS} connections`,
      unit: 'readings/s',
      hub: hub.readings,
      limits: [
        ['bare inserts, batch 1000, WAL FULL', inserts.readings],
        ['bare broker, nothing stored', broker.readings],
        ['mosquitto and a subscriber that only counts', counting.readings],
        ['a short script, each message committed', eachCommitted.readings, { atLeast: 20 }],
        ['a short script, committed once a second', eachSecond.readings, { atLeast: 3 }],
      ],
    },
    {
      what: 'memory while acknowledging, highest',
      unit: 'MB',
      hub: hub.megabytes,
      limits: [['allowed', 200, { atMost: 1 }]],
    },
  ]
}
