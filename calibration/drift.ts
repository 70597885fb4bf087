import { type Refusal, refuse } from './refusal.ts'

/** A known reference measured without adjusting. */
export interface DriftCheck {
  reference: number
  reading: number
}

export interface DriftQuestion {
  /** all three on one clock and in one unit, such as milliseconds; calibrated before checked */
  calibratedAt: number
  checkedAt: number
  readAt: number
  reading: number
  /** one or more check standards; between two the error is interpolated in the reading */
  checks: readonly DriftCheck[]
  /** the same water or soil before and after cleaning the probe: fouling, which grows in time as drift does */
  fouling?: { beforeCleaning: number; afterCleaning: number }
}

export interface DriftAnswer {
  /** to subtract at the moment of the check, and at the moment of the reading */
  errorAtCheck: number
  error: number
  corrected: number
  /** the reading lies outside the two check standards, so their error was extended */
  isExtrapolated: boolean
}

/**
 * A reading corrected for drift that grew in a straight line from nothing at the calibration to what the check found.
 * @returns a refusal when the reading lies outside calibration…check, or two checks read the same
 * @see Wagner, Boulger, Oblinger & Smith 2006, USGS Techniques and Methods 1-D3, data corrections
 * @example pH 5.48 after 120 of 300 min, buffer 4.00 reading 4.12 and 7.06 reading 7.10: error 0.0334, pH 5.45
 */
export function correctDrift(question: DriftQuestion): DriftAnswer | Refusal {
  const { calibratedAt, checkedAt, readAt, reading, fouling } = question
  const numbers = [
    calibratedAt,
    checkedAt,
    readAt,
    reading,
    ...question.checks.flatMap((c) => [c.reference, c.reading]),
  ]
  if (!numbers.every(Number.isFinite))
    return refuse('E_NOT_FINITE', 'A time, reading or check is not a number.')
  if (!(checkedAt > calibratedAt)) {
    return refuse('E_INTERVAL', 'The check must come after the calibration; look at the two times.')
  }
  if (readAt < calibratedAt || readAt > checkedAt) {
    return refuse(
      'E_INTERVAL',
      'The reading lies outside the time from calibration to check, so its drift is unknown.',
    )
  }
  const found = errorAtCheck(question.checks, reading)
  if ('refused' in found) return found
  const fouled = fouling === undefined ? 0 : fouling.beforeCleaning - fouling.afterCleaning
  const atCheck = found.error + fouled
  const error = atCheck * ((readAt - calibratedAt) / (checkedAt - calibratedAt))
  return { errorAtCheck: atCheck, error, corrected: reading - error, isExtrapolated: found.isExtrapolated }
}

function errorAtCheck(
  checks: readonly DriftCheck[],
  reading: number,
): { error: number; isExtrapolated: boolean } | Refusal {
  const rising = [...checks].sort((a, b) => a.reading - b.reading)
  const lowest = rising[0]
  if (lowest === undefined) return refuse('E_POINTS_FEW', 'No check standard was given.')
  if (rising.length === 1) return { error: lowest.reading - lowest.reference, isExtrapolated: false }
  let above = 1
  while (above < rising.length - 1 && rising[above]!.reading < reading) above += 1
  const [low, high] = [rising[above - 1]!, rising[above]!]
  if (low.reading === high.reading) {
    return refuse('E_SAME_REFERENCE', `Two check standards both read ${low.reading}; use two that differ.`)
  }
  const share = (reading - low.reading) / (high.reading - low.reading)
  const lowError = low.reading - low.reference
  const highError = high.reading - high.reference
  return {
    error: lowError + (highError - lowError) * share,
    isExtrapolated: reading < lowest.reading || reading > rising.at(-1)!.reading,
  }
}
