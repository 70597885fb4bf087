import type { Probe } from '../../../hub/contract/survey.ts'
import { channelList } from '../../notebook.ts'

export interface LiveTemperature {
  celsius: number
  atMs: number
  /** the thermometer, or its channel while it has no calibration */
  from: string
}

/** What the thermometer beside this probe reads now; null when there is none. */
export function liveTemperature(probe: Probe): LiveTemperature | null {
  if (probe.temperatureChannel === undefined) return null
  const channel = channelList.value.find(
    (each) => each.board === probe.board && each.channel === probe.temperatureChannel,
  )
  if (!channel?.latest) return null
  const [, , atMs, sent, value] = channel.latest
  if (value !== null && channel.valueUnit === 'Cel')
    return { celsius: value, atMs, from: channel.probe ?? channel.channel }
  if (channel.signalUnit !== 'Cel') return null
  return { celsius: sent, atMs, from: `${channel.probe ?? channel.channel}, not calibrated` }
}
