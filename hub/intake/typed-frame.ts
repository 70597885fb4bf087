import { createHash } from 'node:crypto'
import type { AddSpot, Spot } from '../contract/spot.ts'
import type { Probe } from '../contract/survey.ts'
import type { Frame } from '../sources/source.ts'

/** Where values that a person typed come from, in place of a port or a broker. */
const TYPED_SOURCE = 'typed'

export function isTypedSource(source: string): boolean {
  return source === TYPED_SOURCE || source.startsWith(`${TYPED_SOURCE}:`)
}

/**
 * Values typed on a page go the way of all others: one SenML pack (RFC 8428), numbered from the id of the spot reading,
 * so that sending it twice stores it once.
 * @param unit  in which the meter is read
 */
export function typedFrame(spot: Spot, sent: AddSpot, probe: Probe, unit: string, arrivedMs: number): Frame {
  const hash = createHash('sha256').update(spot.id).digest()
  const values = (sent.typed ?? []).map(({ value }, index) => ({
    n: probe.channel,
    u: unit,
    v: value,
    t: Date.parse(spot.replicates[index]!.from) / 1000,
  }))
  const pack = [
    { bn: `${probe.board}/`, n: 'startup', v: hash.readUInt32BE(0) },
    { n: 'message', v: hash.readUInt32BE(4) },
    ...values,
  ]
  return {
    source: spot.by === undefined ? TYPED_SOURCE : `${TYPED_SOURCE}:${spot.by}`,
    arrivedMs,
    format: 'line',
    board: probe.board,
    bytes: Buffer.from(JSON.stringify(pack)),
  }
}
