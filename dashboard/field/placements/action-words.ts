import type { StretchAction } from './change-stretch.ts'

/** What may be said about a stretch, for a radio button each. */
export const actionWords: Record<StretchAction, string> = {
  rest: 'From a moment on it was somewhere else',
  first: 'Up to a moment it was somewhere else',
  all: 'All that time it was somewhere else',
  times: 'It came or went at another time',
  remove: 'It was not there at all',
}

/** What happens most, to take instead of writing. */
export const commonReasons: readonly string[] = [
  'nobody pressed “next”',
  'pressed too late',
  'wrong quadrat chosen',
  'written on the group’s sheet',
  'the values show when it was carried',
]
