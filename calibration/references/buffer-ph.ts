import { type Refusal, refuse } from '../refusal.ts'
import { BUFFER_SETS, type Buffer, type BufferSet } from './ph-buffers.ts'
import { readTable } from './temperature-table.ts'

export interface BufferPh {
  ph: number
  standardUncertaintyPh: number
  source: string
}

/**
 * The pH of a calibration buffer at the temperature measured in it.
 * @param set  `nist` (by substance), `technical` (by nominal pH 4, 7, 10), `jis`, … see ph-buffers.ts
 * @param celsius  inside the published rows, mostly 0–50 °C; outside → refusal `E_TEMPERATURE_RANGE`
 * @see the source named by each set
 */
export function bufferPh(set: string, buffer: string, celsius: number): BufferPh | Refusal {
  const bufferSet = BUFFER_SETS.find((each) => each.set === set.trim().toLowerCase())
  if (bufferSet === undefined) {
    const known = BUFFER_SETS.map((each) => each.set).join(', ')
    return refuse('E_BUFFER_UNKNOWN', `There is no buffer set “${set}”. Known sets: ${known}.`)
  }
  const found = findBuffer(bufferSet, buffer)
  if (found === undefined) {
    const known = bufferSet.buffers.map((each) => each.name).join(', ')
    return refuse('E_BUFFER_UNKNOWN', `Set ${set} has no buffer “${buffer}”. It has: ${known}.`)
  }
  if (!Number.isFinite(celsius)) {
    return refuse(
      'E_NOT_FINITE',
      `The temperature of buffer ${buffer} is not a number; measure it in the beaker.`,
    )
  }
  const ph =
    found.rows.length === 1 && found.rows[0]!.celsius === celsius
      ? found.rows[0]!.figure
      : readTable(found.rows, celsius)
  if (ph === null) {
    const low = found.rows[0]!.celsius
    const high = found.rows.at(-1)!.celsius
    return refuse(
      'E_TEMPERATURE_RANGE',
      `${celsius} °C is outside the published table of buffer ${set} ${buffer} (${low} to ${high} °C). ` +
        'Check the thermometer, or type the pH printed on the bottle.',
    )
  }
  return { ph, standardUncertaintyPh: bufferSet.standardUncertaintyPh, source: bufferSet.source }
}

/** By name, or by nominal pH however it is written: `7`, `7.0` and `7.00` are one bottle. */
function findBuffer(bufferSet: BufferSet, wanted: string): Buffer | undefined {
  const name = wanted.trim().toLowerCase()
  const exact = bufferSet.buffers.find((each) => each.name === name || each.label === name)
  if (exact !== undefined || name === '') return exact
  const nominal = Number(name)
  return bufferSet.buffers.find((each) => Number(each.name) === nominal)
}
