import {
  type HeldSample,
  judgeSteadiness,
  type Steadiness,
  type SteadyRule,
} from '../../calibration/index.ts'
import type { StreamReadings } from '../contract/stream.ts'
import { HubError } from '../errors.ts'

/** What a held probe shows at this moment. */
export interface HeldSignal extends Steadiness {
  newest: number
  heldSeconds: number
  samples: readonly HeldSample[]
}

/**
 * Follows one channel on the live stream of a running hub, from now on.
 * @yields after every reading of it
 */
export async function* followSignal(
  address: string,
  channel: number,
  rule: SteadyRule,
  signal: AbortSignal,
): AsyncGenerator<HeldSignal> {
  const response = await fetch(`${address}/api/stream`, { signal })
  if (!response.body) throw new HubError('E_NOT_FOUND', `The hub at ${address} has no stream.`)
  const samples: HeldSample[] = []
  let startMs: number | null = null
  for await (const { rows } of readingEvents(response.body)) {
    const mine = rows.filter(([, rowChannel]) => rowChannel === channel)
    for (const [, , timeMs, value] of mine) {
      startMs ??= timeMs
      samples.push({ seconds: (timeMs - startMs) / 1000, value })
    }
    if (mine.length === 0) continue
    samples.sort((a, b) => a.seconds - b.seconds)
    const newest = samples.at(-1)!
    yield { ...judgeSteadiness(samples, rule), newest: newest.value, heldSeconds: newest.seconds, samples }
  }
}

async function* readingEvents(body: ReadableStream<Uint8Array>): AsyncGenerator<StreamReadings> {
  const decoder = new TextDecoder()
  let text = ''
  for await (const bytes of body as unknown as AsyncIterable<Uint8Array>) {
    text += decoder.decode(bytes, { stream: true })
    const events = text.split('\n\n')
    text = events.pop() ?? ''
    for (const event of events) {
      const name = /^event: (.*)$/m.exec(event)?.[1]
      const data = /^data: (.*)$/m.exec(event)?.[1]
      if (name === 'readings' && data !== undefined) yield JSON.parse(data) as StreamReadings
    }
  }
}

/** Mean, scatter and number of the samples in the newest window. */
export function averageWindow(samples: readonly HeldSample[], windowSeconds: number) {
  const newest = samples.at(-1)!.seconds
  const values = samples.filter(({ seconds }) => newest - seconds <= windowSeconds).map(({ value }) => value)
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return {
    signal: mean,
    n: values.length,
    scatter: values.length < 2 ? null : Math.sqrt(squares / (values.length - 1)),
  }
}
