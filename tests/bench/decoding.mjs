import { readFrame } from '../../.build/hub/intake/read-frame.js'
import { readPack } from '../../.build/hub/wire/senml.js'
import { boardNames, framesOf } from './class-messages.mjs'
import { byTurns, secondsOf } from './measuring.mjs'

const frames = framesOf(boardNames(4), 0, 25_000)
const texts = frames.map(({ bytes }) => bytes.toString())

const rate = (work) => async () => ({ messages: frames.length / (await secondsOf(work)) })

let kept = 0

/** From a message's text to checked records, and from its bytes to an arrival, against JSON.parse alone. */
export async function measureDecoding(runs) {
  const { parse, senml, frame } = await byTurns(runs, {
    parse: rate(() => {
      for (const text of texts) kept += JSON.parse(text).length
    }),
    senml: rate(() => {
      for (const text of texts) kept += readPack(JSON.parse(text)).length
    }),
    frame: rate(() => {
      for (const one of frames) kept += readFrame(one, () => undefined).length
    }),
  })
  if (kept === 0) throw new Error('nothing was decoded')
  const limits = [['JSON.parse alone', parse.messages, { atLeast: 0.85 }]]
  return [
    { what: 'SenML decoded and checked', unit: 'messages/s', hub: senml.messages, limits },
    {
      what: 'from bytes to an arrival',
      unit: 'messages/s',
      hub: frame.messages,
      limits: [limits[0].slice(0, 2)],
    },
  ]
}
