import type { BoardPlan } from './board-plan.ts'
import { checksumTrailer } from './line-checksum.ts'
import type { Chance } from './seeded-chance.ts'

export interface GarbageLine {
  readonly what: string
  /** without the line's end, and without one inside */
  readonly bytes: Buffer
}

type Maker = (plan: BoardPlan, chance: Chance, turn: number) => Buffer

/** Line noise. The first byte is in no alphabet, so that chance cannot make it look like a message. */
const noise: Maker = (plan, chance, turn) => {
  const length = 8 + Math.floor(chance.between(0, 40, `garbage/length/${plan.name}`, turn))
  const bytes = Buffer.alloc(length)
  for (let at = 0; at < length; at += 1) {
    const byte = Math.floor(chance.between(0, 256, `garbage/byte/${plan.name}/${turn}`, at))
    bytes[at] = at === 0 || byte === 0x0a || byte === 0x0d ? 0xff : byte
  }
  return bytes
}

function pack(plan: BoardPlan, turn: number, name: string, value: string): string {
  const base = `{"bn":"${plan.name}/","n":"startup","v":1},{"n":"message","v":${9_000_000 + turn}}`
  return `[${base},{"n":"${name}","u":"mV","v":${value},"t":-0.5}]`
}

function checked(plan: BoardPlan, bytes: Buffer): Buffer {
  if (plan.link === 'mqtt') return bytes
  return Buffer.concat([bytes, Buffer.from(checksumTrailer(bytes), 'latin1')])
}

const packMakers: Readonly<Record<string, Maker>> = {
  'random bytes': noise,
  'half a line': (plan, _chance, turn) => Buffer.from(pack(plan, turn, 'ph', '84.2').slice(0, 50)),
  'not a number': (plan, _chance, turn) => checked(plan, Buffer.from(pack(plan, turn, 'ph', 'NaN'))),
  'invalid UTF-8': (plan, _chance, turn) =>
    checked(plan, Buffer.from(pack(plan, turn, 'ph\u00ff\u00fe', '84.2'), 'latin1')),
}

const serialMakers: Readonly<Record<string, Maker>> = {
  'wrong checksum': (plan, _chance, turn) => {
    const sent = pack(plan, turn, 'ph', '84.2')
    // one digit was changed on the way
    return Buffer.from(sent.replace('84.2', '94.2') + checksumTrailer(Buffer.from(sent)))
  },
  ...packMakers,
}

const columnMakers: Readonly<Record<string, Maker>> = {
  'random bytes': noise,
  'half a line': () => Buffer.from('61;590;81'),
  'not a number': () => Buffer.from('61;590;8123;NaN;11,5;0,4'),
  heading: () => Buffer.from('seconds;moisture;light;ph;temperature;wind'),
  'wrong checksum': () => Buffer.from('61;590;8123;74,2;11,5;0,4#0000'),
}

const makersFor = { serial: serialMakers, mqtt: packMakers, columns: columnMakers } as const

/**
 * Rubbish such as a board of this link may send.
 * @param kindTurn  walks through the kinds, one after the other
 * @param turn  makes each line another
 */
export function garbageLine(plan: BoardPlan, chance: Chance, kindTurn: number, turn: number): GarbageLine {
  const makers = Object.entries(makersFor[plan.link])
  const [what, make] = makers[kindTurn % makers.length] ?? (['random bytes', noise] as const)
  return { what, bytes: make(plan, chance, turn) }
}
