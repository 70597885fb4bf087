import { describe, expect, test } from 'vitest'
import { isNight, solarElevationDegrees, sunDay } from '../../../hub/quality/sun.ts'

const GOLDEN = { latitude: 39.742476, longitude: -105.1786 }

describe('where the sun stands', () => {
  // Meeus 1998, Astronomical Algorithms, example 25.a: 1992 October 13, 0h TD, declination −7.78507°. Seen from the
  // north pole the elevation is the declination. Tolerance: 59 s between the two time scales, 0.0007°.
  test('declination is that of Meeus’s worked example', () => {
    expect(Math.abs(solarElevationDegrees(90, 0, Date.UTC(1992, 9, 13)) + 7.78507)).toBeLessThan(0.001)
  })

  // Reda & Andreas 2003, NREL/TP-560-34302, table A5.1: topocentric elevation without refraction 39.872046° at Golden,
  // 2003-10-17 12:30:30 UTC−7. Tolerance: the low-accuracy position is good to 0.01°.
  test('elevation agrees with the worked example of a high-accuracy algorithm', () => {
    const elevation = solarElevationDegrees(
      GOLDEN.latitude,
      GOLDEN.longitude,
      Date.UTC(2003, 9, 17, 19, 30, 30),
    )
    expect(Math.abs(elevation - 39.872046)).toBeLessThan(0.01)
  })

  // Definition: 23.44° is the obliquity; tolerance for the hours between noon and solstice.
  test('on the June solstice noon stands 23.44° above 90 minus the latitude', () => {
    const { noonMs } = sunDay(51.5, 0, Date.UTC(2026, 5, 21, 12))
    expect(Math.abs(solarElevationDegrees(51.5, 0, noonMs) - (90 - 51.5 + 23.44))).toBeLessThan(0.01)
  })

  test('times before 1970 are as good as any', () => {
    const before = solarElevationDegrees(51.5, 0, Date.UTC(1960, 5, 21, 12))
    expect(Math.abs(before - solarElevationDegrees(51.5, 0, Date.UTC(1988, 5, 21, 12)))).toBeLessThan(0.05)
  })
})

describe('sunrise and sunset', () => {
  // The same example, printed with the published algorithm: 06:12:43 and 17:20:19 local time, each ± 30 s. Both are of
  // the UTC day 2003-10-17, so that the sunset is that of the evening before: 00:20:19 UTC.
  test('agree with the published times to the minute', () => {
    const { latitude, longitude } = GOLDEN
    const { sunriseMs } = sunDay(latitude, longitude, Date.UTC(2003, 9, 17, 19))
    const { sunsetMs } = sunDay(latitude, longitude, Date.UTC(2003, 9, 16, 19))
    expect(Math.abs(sunriseMs! - Date.UTC(2003, 9, 17, 13, 12, 43))).toBeLessThan(60_000)
    expect(Math.abs(sunsetMs! - Date.UTC(2003, 9, 17, 0, 20, 19))).toBeLessThan(60_000)
  })

  test('night lies between them, and the day is found from any moment in it', () => {
    const day = sunDay(51.5, -1.2, Date.UTC(2026, 2, 20, 3))
    expect(sunDay(51.5, -1.2, Date.UTC(2026, 2, 20, 22))).toEqual(day)
    const minute = 60_000
    expect([day.sunriseMs! - minute, day.sunriseMs! + minute].map((at) => isNight(51.5, -1.2, at))).toEqual([
      true,
      false,
    ])
    expect([day.sunsetMs! - minute, day.sunsetMs! + minute].map((at) => isNight(51.5, -1.2, at))).toEqual([
      false,
      true,
    ])
    // common knowledge: day and night are about equal at the equinox
    expect(Math.abs(day.sunsetMs! - day.sunriseMs! - 43_200_000)).toBeLessThan(15 * minute)
  })

  test('beyond the polar circle there may be none', () => {
    expect(sunDay(78, 16, Date.UTC(2026, 5, 21))).toMatchObject({ sunriseMs: null, sunsetMs: null })
    expect(sunDay(78, 16, Date.UTC(2026, 11, 21))).toMatchObject({ sunriseMs: null, sunsetMs: null })
    expect(isNight(78, 16, Date.UTC(2026, 5, 21))).toBe(false)
    expect(isNight(78, 16, Date.UTC(2026, 11, 21, 12))).toBe(true)
  })
})
