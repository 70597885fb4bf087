import { READINGS_PER_MESSAGE } from '../../hub/store/store.ts'
import type { HubProcess } from './running-hub.ts'

export interface Latest {
  signal: number
  unit: string
  value: number | null
  valueUnit: string | null
  timeMs: number
  quadrat: string | null
  flag: number
}

/** The newest reading of each channel, as `board/channel`, once those of the newest message are among them. */
export async function latestReadings(hub: HubProcess): Promise<Record<string, Latest>> {
  const { lastMessage } = await hub.now()
  // the directory may be a moment old: all who ask at once are given one answer
  const { channels } = await hub.until(
    () => hub.directory(),
    ({ channels }) => channels.some(({ latest }) => latest && messageOf(latest[0]) >= lastMessage),
  )
  return Object.fromEntries(
    channels.map(({ board, channel, signalUnit, valueUnit, quadrat, latest }) => {
      if (!latest) throw new Error(`${board}/${channel} has no reading`)
      const [, , timeMs, signal, value, , flag] = latest
      return [`${board}/${channel}`, { signal, unit: signalUnit, value, valueUnit, timeMs, quadrat, flag }]
    }),
  )
}

function messageOf(readingId: number): number {
  return Math.floor(readingId / READINGS_PER_MESSAGE)
}
