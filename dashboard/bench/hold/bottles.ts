import { recall, remember } from '../remembered.ts'
import type { Entry } from './entries.ts'

/** The bottle last used of each buffer, and the set last used, so that a lot is typed once a day. */
type Bottles = Record<string, { lot?: string; expires?: string }>

function nameOf(entry: Entry): string | null {
  const { bufferSet, buffer } = entry
  return bufferSet && buffer ? `${bufferSet}/${buffer}` : null
}

/** An entry whose buffer was changed, with what is known of that bottle. */
export function withBottle(entry: Entry): Entry {
  const name = nameOf(entry)
  const known = name === null ? undefined : recall<Bottles>('bottles', {})[name]
  return { ...entry, lot: known?.lot ?? '', expires: known?.expires ?? '' }
}

export function rememberBottle(entry: Entry): void {
  const name = nameOf(entry)
  if (name === null) return
  const { lot = '', expires = '' } = entry
  remember('bottles', { ...recall<Bottles>('bottles', {}), [name]: { lot, expires } })
}
