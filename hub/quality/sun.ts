const DAY_MS = 86_400_000
const MINUTE_MS = 60_000
const J2000_MS = Date.UTC(2000, 0, 1, 12)
const DAYS_PER_CENTURY = 36_525

/** Upper limb on the horizon with 34′ of refraction: the centre is then this far below it. */
const RISE_DEGREES = -0.833

const sin = (degrees: number) => Math.sin((degrees * Math.PI) / 180)
const cos = (degrees: number) => Math.cos((degrees * Math.PI) / 180)
const asDegrees = (radians: number) => (radians * 180) / Math.PI

interface Sun {
  declinationDegrees: number
  /** apparent minus mean solar time */
  equationOfTimeMinutes: number
}

/**
 * Apparent declination and equation of time, good to 0.01° and a second or two between 1950 and 2050.
 * @see Meeus 1998, Astronomical Algorithms, 2nd ed., ch. 25 (low accuracy) and 28, as the NOAA solar calculator uses them
 */
function sunAt(timeMs: number): Sun {
  const century = (timeMs - J2000_MS) / DAY_MS / DAYS_PER_CENTURY
  const meanLongitude = 280.46646 + century * (36000.76983 + century * 0.0003032)
  const anomaly = 357.52911 + century * (35999.05029 - century * 0.0001537)
  const eccentricity = 0.016708634 - century * (0.000042037 + century * 0.0000001267)
  const centre =
    sin(anomaly) * (1.914602 - century * (0.004817 + century * 0.000014)) +
    sin(2 * anomaly) * (0.019993 - century * 0.000101) +
    sin(3 * anomaly) * 0.000289
  const node = 125.04 - 1934.136 * century
  const apparentLongitude = meanLongitude + centre - 0.00569 - 0.00478 * sin(node)
  const meanObliquity = 23.4392911 - century * (0.0130042 + century * (1.64e-7 - century * 5.04e-7))
  const obliquity = meanObliquity + 0.00256 * cos(node)
  const y = Math.tan((obliquity * Math.PI) / 360) ** 2
  const equationOfTime =
    y * sin(2 * meanLongitude) -
    2 * eccentricity * sin(anomaly) +
    4 * eccentricity * y * sin(anomaly) * cos(2 * meanLongitude) -
    0.5 * y * y * sin(4 * meanLongitude) -
    1.25 * eccentricity * eccentricity * sin(2 * anomaly)
  return {
    declinationDegrees: asDegrees(Math.asin(sin(obliquity) * sin(apparentLongitude))),
    equationOfTimeMinutes: 4 * asDegrees(equationOfTime),
  }
}

/**
 * Elevation of the sun's centre above the horizon, without refraction.
 * @param latitude  degrees, north positive
 * @param longitude  degrees, east positive
 */
export function solarElevationDegrees(latitude: number, longitude: number, timeMs: number): number {
  const { declinationDegrees, equationOfTimeMinutes } = sunAt(timeMs)
  const utcMinutes = ((timeMs % DAY_MS) + DAY_MS) / MINUTE_MS
  const hourAngle = (utcMinutes + equationOfTimeMinutes) / 4 + longitude - 180
  const sine =
    sin(latitude) * sin(declinationDegrees) + cos(latitude) * cos(declinationDegrees) * cos(hourAngle)
  return asDegrees(Math.asin(Math.max(-1, Math.min(1, sine))))
}

/** Between sunset and sunrise. */
export function isNight(latitude: number, longitude: number, timeMs: number): boolean {
  return solarElevationDegrees(latitude, longitude, timeMs) < RISE_DEGREES
}

export interface SunDay {
  noonMs: number
  /** null: the sun does not rise or does not set that day */
  sunriseMs: number | null
  sunsetMs: number | null
}

/**
 * Sunrise, noon and sunset of the solar day in which `timeMs` lies (midnight to midnight by the sun), to the minute
 * between the polar circles.
 * @see NOAA solar calculator: the hour angle at which the zenith distance is 90.833°, found again at the time it gives
 */
export function sunDay(latitude: number, longitude: number, timeMs: number): SunDay {
  const offsetMs = longitude * 4 * MINUTE_MS
  const meanNoonMs = Math.floor((timeMs + offsetMs) / DAY_MS) * DAY_MS + DAY_MS / 2 - offsetMs
  const noonMs = meanNoonMs - sunAt(meanNoonMs).equationOfTimeMinutes * MINUTE_MS
  return { noonMs, sunriseMs: crossing(-1), sunsetMs: crossing(1) }

  function crossing(side: -1 | 1): number | null {
    let atMs = noonMs
    for (let round = 0; round < 3; round++) {
      const { declinationDegrees, equationOfTimeMinutes } = sunAt(atMs)
      const cosine =
        (sin(RISE_DEGREES) - sin(latitude) * sin(declinationDegrees)) /
        (cos(latitude) * cos(declinationDegrees))
      if (!(Math.abs(cosine) <= 1)) return null
      const hourAngleDegrees = side * asDegrees(Math.acos(cosine))
      atMs = meanNoonMs + (hourAngleDegrees * 4 - equationOfTimeMinutes) * MINUTE_MS
    }
    return atMs
  }
}
