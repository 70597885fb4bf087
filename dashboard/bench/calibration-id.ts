import { wallTime } from './wall-time.ts'

/** `ph-1-20260612-0930` by the site’s clock; a second one in the same minute ends in `-2`. */
export function calibrationId(probe: string, atMs: number, taken: readonly string[], zone?: string): string {
  return freeId(`${probe}-${stamp(atMs, zone)}`, taken)
}

/** `ph-1-check-20260612-1430` */
export function checkId(probe: string, atMs: number, taken: readonly string[], zone?: string): string {
  return freeId(`${probe}-check-${stamp(atMs, zone)}`, taken)
}

function stamp(atMs: number, zone: string | undefined): string {
  return wallTime(atMs, zone).replaceAll('-', '').replace(':', '').replace('T', '-')
}

/** Names may be 64 long: a long probe name gives way, the time does not. */
function freeId(base: string, taken: readonly string[]): string {
  for (let number = 1; ; number++) {
    const tail = number === 1 ? '' : `-${number}`
    const id =
      base.length + tail.length <= 64 ? base + tail : base.slice(base.length + tail.length - 64) + tail
    const sound = id.replace(/^[^A-Za-z0-9]+/, '')
    if (!taken.includes(sound)) return sound
  }
}
