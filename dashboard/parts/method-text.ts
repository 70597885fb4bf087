import type { Method } from '../../hub/contract/quantity.ts'
import type { ChannelNow } from '../../hub/contract/reading.ts'

/** How something was measured, in one line; unlike methods along a row are named as such, never blended. */
export function methodText(channels: readonly (ChannelNow | undefined)[]): string {
  const texts = new Set(
    channels.flatMap((channel) => (channel?.method ? [oneMethodText(channel.method)] : [])),
  )
  if (texts.size > 1) return 'unlike methods: see each quadrat'
  return [...texts][0] ?? ''
}

export function oneMethodText(method: Method): string {
  const parts = []
  if (method.way) parts.push(method.way)
  if (method.depthCentimetres !== undefined) parts.push(`${method.depthCentimetres} cm deep`)
  if (method.heightMetres !== undefined) parts.push(`${method.heightMetres} m above ground`)
  return parts.join(', ')
}
