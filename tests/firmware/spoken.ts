import { checkTrailer } from '../../hub/wire/checksum.ts'
import { isSenmlRefusal, readPack } from '../../hub/wire/senml.ts'

/** What one pack of a board says, its base fields applied. */
export interface Spoken {
  startup: number | undefined
  message: number | undefined
  about: string | undefined
  /** of its signals; below 2^28 relative to its sending */
  seconds: number | undefined
  /** signal by channel, the protocol's own left out */
  signals: Record<string, number>
  units: Record<string, string>
}

/** @throws Error when it is no SenML pack, or its checksum is wrong */
export function spoken(line: string): Spoken {
  const checked = checkTrailer(line)
  if (!checked.ok) throw new Error(`checksum ${checked.computed} of ${line}`)
  const records = readPack(JSON.parse(checked.body))
  if (isSenmlRefusal(records)) throw new Error(`${records.message}: ${line}`)
  const said: Spoken = {
    startup: undefined,
    message: undefined,
    about: undefined,
    seconds: undefined,
    signals: {},
    units: {},
  }
  for (const { name, unit, value, more, seconds } of records) {
    const channel = name.slice(name.indexOf('/') + 1)
    if (channel === 'startup' || channel === 'message') said[channel] = value
    else if (channel === 'about') said.about = more?.text
    else if (value !== undefined) {
      said.signals[channel] = value
      said.units[channel] = unit
      said.seconds = seconds
    }
  }
  return said
}
