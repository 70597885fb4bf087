import { parseArgs } from 'node:util'
import { type FaultName, faultsFrom } from './fault-names.ts'
import { mostQuadrats } from './invented-site.ts'

export interface ClassOptions {
  readonly broker: string
  readonly seed: number
  readonly speed: number
  readonly startMs: number
  readonly realStartMs: number
  readonly truthPath: string
  readonly faults: ReadonlySet<FaultName>
  /** simulated seconds, or null for until told to stop */
  readonly forSeconds: number | null
  readonly quadratCount: number
  readonly intervalSeconds: number
  /** nothing calibrated and nothing placed: the class begins at its beakers */
  readonly beginsOnBench: boolean
}

/** @throws RangeError that names the option, what was given and what would do */
export function classOptions(args: readonly string[], realNowMs: number): ClassOptions {
  const { values } = parseArgs({
    args: [...args],
    options: {
      broker: { type: 'string', default: 'mqtt://127.0.0.1:1883' },
      seed: { type: 'string', default: '1' },
      speed: { type: 'string', default: '1' },
      start: { type: 'string' },
      'real-start': { type: 'string' },
      truth: { type: 'string' },
      faults: { type: 'string', default: '' },
      for: { type: 'string' },
      quadrats: { type: 'string', default: '8' },
      interval: { type: 'string' },
      bench: { type: 'boolean', default: false },
    },
  })
  if (!values.truth)
    throw new RangeError('--truth: a file for the truth is needed, such as --truth truth.jsonl')
  const realStartMs = numberIn('real-start', values['real-start'], 0, 8.64e15) ?? realNowMs
  const speed = numberIn('speed', values.speed, 0.01, 10_000) ?? 1
  return {
    broker: brokerIn(values.broker),
    seed: Math.trunc(numberIn('seed', values.seed, 0, 2 ** 32 - 1) ?? 1),
    speed,
    startMs: numberIn('start', values.start, 0, 8.64e15) ?? realStartMs,
    realStartMs,
    truthPath: values.truth,
    faults: faultsFrom(values.faults),
    forSeconds: numberIn('for', values.for, 0.001, 1e9),
    quadratCount: Math.trunc(numberIn('quadrats', values.quadrats, 1, mostQuadrats) ?? 8),
    // at most one message per board and real second, unless asked for more
    intervalSeconds: numberIn('interval', values.interval, 0.05, 86_400) ?? Math.max(5, Math.round(speed)),
    beginsOnBench: values.bench,
  }
}

function numberIn(option: string, text: string | undefined, low: number, high: number): number | null {
  if (text === undefined) return null
  const number = Number(text)
  if (text.trim() === '' || !(number >= low && number <= high)) {
    throw new RangeError(`--${option}: “${text}” is no number from ${low} to ${high}`)
  }
  return number
}

function brokerIn(text: string): string {
  if (/^(mqtt|mqtts|tcp|ws|wss):\/\/\S+$/.test(text)) return text
  throw new RangeError(`--broker: “${text}” is no address such as mqtt://127.0.0.1:1883`)
}
