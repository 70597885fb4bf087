import { FIRST_ABSOLUTE_SECOND } from '../wire/senml.ts'
import { type Point, right, shown, untested, wrong } from './point.ts'
import { firstTimes, type Heard, instantMs, lastSaid, type Transcript } from './transcript.ts'

/** Words no board knows; a check says them to see that nothing comes of it. */
export const UNKNOWN_WORDS = 'marmalade 7'

const DAY_MS = 86_400_000
/** Arrival, transmission and a board's own step: times are not sharper than this. */
const BLUR_MS = 1500
/** …and a reset in between leaves a board unsure of how long its boot loader took. */
const RESET_BLUR_MS = 3000

/** What a board does when it is asked, and the times it gives. */
export function judgeRequests(transcript: Transcript, all: readonly Heard[]): Point[] {
  return [
    judgeWho(transcript, all),
    judgeTimes(transcript, all),
    judgeEvery(transcript, all),
    judgeTime(transcript, all),
    judgeUnknown(transcript, all),
  ]
}

function judgeWho(transcript: Transcript, all: readonly Heard[]): Point {
  const askedMs = lastSaid(transcript, (words) => words === 'who')
  if (askedMs === null) return untested('who', 'it was not asked')
  const answer = all.find(({ about }) => about !== undefined)
  return answer ? right('who', shown(answer.about!)) : wrong('who', 'no "about" record came')
}

/**
 * By how much the board's clock may be ahead at that moment, because it was told so: a check does that on purpose. Just
 * after it was told, a message may have been written by what it was told before.
 */
function toldAheadMs({ events }: Transcript, atMs: number): number[] {
  const told = events.flatMap((event) =>
    event.kind === 'said' && event.words.startsWith('time ') && event.atMs <= atMs
      ? { atMs: event.atMs, aheadMs: Number(event.words.slice(5)) * 1000 - event.atMs }
      : [],
  )
  const last = told.at(-1)
  if (!last) return [0]
  return atMs - last.atMs < BLUR_MS ? [last.aheadMs, told.at(-2)?.aheadMs ?? 0] : [last.aheadMs]
}

/** How long before its arrival a signal was measured, by the board's word; the likeliest where two are possible. */
function ageMs(transcript: Transcript, heard: Heard, seconds: number): number {
  const plainMs = heard.atMs - instantMs(heard, seconds)
  if (seconds < FIRST_ABSOLUTE_SECOND) return plainMs
  const ages = toldAheadMs(transcript, heard.atMs).map((aheadMs) => plainMs + aheadMs)
  return ages.find((age) => age >= -BLUR_MS && age < 60_000) ?? ages[0]!
}

function judgeTimes(transcript: Transcript, all: readonly Heard[]): Point {
  const instants = new Map<string, { ms: number; isRelative: boolean }>()
  let oldestMs = 0
  for (const heard of all)
    for (const { channel, seconds } of heard.signals) {
      const isRelative = seconds < FIRST_ABSOLUTE_SECOND
      const ms = instantMs(heard, seconds)
      const age = ageMs(transcript, heard, seconds)
      const said = `${channel} at ${seconds} s in ${shown(heard.text)}`
      if (age < -BLUR_MS) return wrong('times', `in the future: ${said}`)
      if (age > 60 * DAY_MS) return wrong('times', `more than 60 days ago: ${said}`)
      oldestMs = Math.max(oldestMs, age)
      const key = `${heard.startup} ${heard.message} ${channel}`
      const before = instants.get(key)
      if (
        heard.message !== undefined &&
        before?.isRelative &&
        isRelative &&
        Math.abs(before.ms - ms) > RESET_BLUR_MS
      )
        return wrong(
          'times',
          `message ${heard.message} was sent again with another time (${((ms - before.ms) / 1000).toFixed(1)} s apart): work relative times out afresh`,
        )
      if (!before) instants.set(key, { ms, isRelative })
    }
  return instants.size === 0
    ? untested('times', 'no signal came')
    : right('times', `up to ${(oldestMs / 1000).toFixed(1)} s before sending`)
}

function judgeEvery(transcript: Transcript, all: readonly Heard[]): Point {
  const asks = transcript.events.flatMap((event) => (event.kind === 'said' ? event : []))
  const seen: string[] = []
  for (const [place, { atMs, words }] of asks.entries()) {
    if (!words.startsWith('every ')) continue
    const seconds = Number(words.slice(6))
    // until it is asked for another interval, or told another time
    const untilMs = asks.slice(place + 1).find((ask) => /^(every|time) /.test(ask.words))?.atMs ?? Infinity
    const taken = firstTimes(all)
      .filter((heard) => heard.atMs > atMs && heard.atMs < untilMs)
      .map((heard) => instantMs(heard, heard.signals[0]!.seconds))
      .filter((ms) => ms > atMs)
      .sort((a, b) => a - b)
    const gaps = taken.slice(1).map((ms, index) => (ms - taken[index]!) / 1000)
    if (gaps.length === 0) continue
    gaps.sort((a, b) => a - b)
    const middle = (gaps[Math.floor((gaps.length - 1) / 2)]! + gaps[Math.floor(gaps.length / 2)]!) / 2
    if (Math.abs(middle - seconds) > 0.2 * seconds + 0.15)
      return wrong('every', `asked for ${seconds} s, it samples every ${middle.toFixed(2)} s`)
    seen.push(`${seconds} s: ${middle.toFixed(2)} s`)
  }
  if (seen.length > 0) return right('every', seen.join(', '))
  return asks.some(({ words }) => words.startsWith('every '))
    ? wrong('every', 'no two samples came after it was asked')
    : untested('every', 'it was not asked')
}

function judgeTime(transcript: Transcript, all: readonly Heard[]): Point {
  const toldMs = transcript.events.flatMap((event) =>
    event.kind === 'said' && event.words.startsWith('time ') ? event.atMs : [],
  )
  if (toldMs.length === 0) return untested('time', 'it was not told')
  // just after it was told, a message may have been written before
  const after = all.filter(
    ({ atMs, signals }) =>
      signals.length > 0 && atMs > toldMs[0]! && !toldMs.some((ms) => atMs >= ms && atMs - ms < BLUR_MS),
  )
  if (after.length === 0) return untested('time', 'no message came after it was told')
  const absolute = after.filter(({ signals }) => signals[0]!.seconds >= FIRST_ABSOLUTE_SECOND)
  if (absolute.length === 0) return untested('time', 'it keeps no clock: its times are relative')
  for (const heard of absolute) {
    const age = ageMs(transcript, heard, heard.signals[0]!.seconds)
    // sent soon after it was measured, with the backlog gone by now
    if (age < -BLUR_MS || age > 60_000)
      return wrong('time', `its time is ${(age / 1000).toFixed(1)} s off: ${shown(heard.text)}`)
  }
  return right('time', 'its times are Unix times by the clock it was given')
}

function judgeUnknown(transcript: Transcript, all: readonly Heard[]): Point {
  const saidMs = lastSaid(transcript, (words) => words.startsWith(UNKNOWN_WORDS))
  if (saidMs === null) return untested('unknown words', 'none were said')
  const before = all.filter(({ atMs, startup }) => atMs <= saidMs && startup !== undefined).at(-1)
  const after = all.filter(({ atMs, startup }) => atMs > saidMs && startup !== undefined)
  if (before && after.length === 0) return wrong('unknown words', 'after them nothing came any more')
  const changed = after.find(({ startup }) => startup !== before?.startup)
  if (before && changed) return wrong('unknown words', `they have restarted it: ${shown(changed.text)}`)
  const bad = all.find(({ atMs, trouble }) => atMs > saidMs && trouble !== null)
  if (bad) return wrong('unknown words', `answered by ${shown(bad.text)}`)
  return after.length === 0
    ? untested('unknown words', 'no numbered message came')
    : right('unknown words', 'messages went on as before')
}
