import { clockText, dayText, minuteText, spanText } from '../../format-time.ts'
import type { Stretch } from './stretches.ts'

/** Where it was, in two or three words. */
export function stretchWords({ kind, quadrat }: Stretch): string {
  return kind === 'at' ? `at ${quadrat}` : kind === 'transit' ? 'in transit' : 'not placed'
}

/** “10:42 to 11:15, 33 min”, with days when it goes over midnight or is not of today. */
export function stretchTimes({ fromMs, toMs }: Stretch, nowMs: number, zone: string | undefined): string {
  const today = dayText(nowMs, zone)
  const at = (ms: number) => {
    const day = dayText(ms, zone)
    return `${day === today ? '' : `${day}, `}${minuteText(ms, zone)}`
  }
  return `${at(fromMs)} ${toMs === null ? 'until now' : `to ${at(toMs)}`}, ${spanText((toMs ?? nowMs) - fromMs)}`
}

/** To the second, for putting it right. */
export function stretchExactly({ fromMs, toMs }: Stretch, zone: string | undefined): string {
  return `from ${clockText(fromMs, zone)} ${toMs === null ? 'until now' : `to ${clockText(toMs, zone)}`}`
}

/** The same one, though the survey was read again. */
export function isSameStretch(one: Stretch, other: Stretch | null): boolean {
  return (
    other !== null && one.fromMs === other.fromMs && one.kind === other.kind && one.quadrat === other.quadrat
  )
}
