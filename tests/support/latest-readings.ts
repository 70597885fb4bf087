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

/** The newest reading of each channel, as `board/channel`. */
export async function latestReadings(hub: HubProcess): Promise<Record<string, Latest>> {
  const { channels } = await hub.directory()
  return Object.fromEntries(
    channels.map(({ board, channel, signalUnit, valueUnit, quadrat, latest }) => {
      if (!latest) throw new Error(`${board}/${channel} has no reading`)
      const [, , timeMs, signal, value, , flag] = latest
      return [`${board}/${channel}`, { signal, unit: signalUnit, value, valueUnit, timeMs, quadrat, flag }]
    }),
  )
}
