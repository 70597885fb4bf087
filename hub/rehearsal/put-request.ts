import { type Channel, channels, type Medium, type MediumSetting, mediaFor } from './bench-media.ts'

/** “Put this probe there.” */
export interface PutRequest {
  readonly board: string
  readonly channel: Channel
  readonly medium: Medium
}

/** What was wrong with a request, and what would do. */
export interface PutRefusal {
  readonly refused: string
}

/** @param line  as it came, such as `{"kind":"put","board":"fern-1","channel":"ph","where":"buffer-7","celsius":17}` */
export function understandPut(line: string, boards: readonly string[]): PutRequest | PutRefusal {
  const wish = objectIn(line)
  if (!wish) return { refused: `${quoted(line)} is no JSON object on one line.` }
  if (wish['kind'] !== 'put')
    return { refused: `The class can do nothing called ${quoted(wish['kind'])}; there is put.` }

  const board = boards.find((name) => name === wish['board'])
  if (!board)
    return { refused: `There is no board ${quoted(wish['board'])}; there are ${boards.join(', ')}.` }
  const channel = channels.find((name) => name === wish['channel'])
  if (!channel) {
    return {
      refused: `${board} has no channel ${quoted(wish['channel'])}; there are ${channels.join(', ')}.`,
    }
  }
  const media = mediaFor[channel]
  const where = Object.keys(media).find((name) => name === wish['where'])
  if (!where) {
    const there = Object.keys(media).join(', ')
    return { refused: `${channel} cannot be put into ${quoted(wish['where'])}; there are ${there}.` }
  }
  const setting = media[where]
  if (!setting) return { board, channel, medium: { where } }
  const amount = wish[setting.key] ?? setting.usual
  if (typeof amount !== 'number' || amount < setting.low || amount > setting.high)
    return { refused: refusedAmount(where, setting, amount) }
  return { board, channel, medium: { where, [setting.key]: amount } }
}

function refusedAmount(where: string, { key, low, high }: MediumSetting, amount: unknown): string {
  const given = amount === undefined ? 'none was given' : `${quoted(amount)} was given`
  return `${where} needs ${key}, a number from ${low} to ${high}; ${given}.`
}

function objectIn(line: string): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(line)
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : null
  } catch {
    return null
  }
}

function quoted(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? '')
  return `“${text.length > 60 ? `${text.slice(0, 60)}…` : text}”`
}
