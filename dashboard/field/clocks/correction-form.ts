import type { AddClockCorrection } from '../../../hub/contract/changes.ts'
import { momentOfSeconds } from '../../quality/by-hand/wall-seconds.ts'
import { offsetOfPair, readOffset } from './offset-entry.ts'

/** All of it stays text until it is sent; times are those of a clock on the wall. */
export interface CorrectionForm {
  board: string
  from: string
  to: string
  way: 'offset' | 'pair'
  offset: string
  showed: string
  truly: string
  errorSeconds: string
  reason: string
  by: string
}

const MOST_SECONDS = 400 * 86_400

/** The offset that is meant, seconds; null when it is not written yet. */
export function offsetOf(form: CorrectionForm, zone: string | undefined): number | null {
  if (form.way === 'offset') return readOffset(form.offset)
  const showedMs = momentOfSeconds(form.showed, zone)
  const trulyMs = momentOfSeconds(form.truly, zone)
  return showedMs === null || trulyMs === null || showedMs === trulyMs
    ? null
    : offsetOfPair(showedMs, trulyMs)
}

/** @returns the correction, or what is wrong by field, in words */
export function readCorrectionForm(
  form: CorrectionForm,
  zone: string | undefined,
): { correction: AddClockCorrection } | { wrong: Partial<Record<keyof CorrectionForm, string>> } {
  const wrong: Partial<Record<keyof CorrectionForm, string>> = {}
  const fromMs = momentOfSeconds(form.from, zone)
  const toMs = momentOfSeconds(form.to, zone)
  const offsetSeconds = offsetOf(form, zone)
  const error = form.errorSeconds.trim().replace(',', '.')
  if (form.board === '') wrong.board = 'say which board'
  if (fromMs === null) wrong.from = 'a day and a time'
  if (toMs === null) wrong.to = 'a day and a time'
  else if (fromMs !== null && toMs <= fromMs) wrong.to = 'after the beginning'
  if (offsetSeconds === null || Math.abs(offsetSeconds) > MOST_SECONDS) {
    if (form.way === 'offset') wrong.offset = 'such as +1:00:00 or -0:02:30'
    else wrong.truly = 'two times that differ, by not more than 400 days'
  }
  if (error !== '' && !(/^\d+(\.\d+)?$/.test(error) && Number(error) <= 86_400))
    wrong.errorSeconds = 'seconds, or nothing'
  if (form.reason.trim().length < 3) wrong.reason = 'say in a few words how that is known'
  if (Object.keys(wrong).length > 0 || fromMs === null || toMs === null || offsetSeconds === null)
    return { wrong }
  return {
    correction: {
      board: form.board,
      from: new Date(fromMs).toISOString(),
      to: new Date(toMs).toISOString(),
      offsetSeconds,
      ...(error === '' ? {} : { errorSeconds: Number(error) }),
      reason: form.reason.trim(),
      ...(form.by.trim() === '' ? {} : { by: form.by.trim() }),
    },
  }
}
