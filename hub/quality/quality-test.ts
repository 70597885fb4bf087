import type { z } from 'zod'
import type { FlagReason } from '../contract/flag.ts'

/** One channel at one placement under one meaning. Times rise; equal times are allowed. */
export interface Series {
  timeMs: readonly number[]
  /** null: there is a signal but no value */
  value: readonly (number | null)[]
  signal: readonly number[]
  quantity: string
  /** SenML unit of the signal; '' when the board states none */
  signalUnit: string
  /** null: unknown */
  expectedIntervalMs: number | null
}

export interface Neighbour {
  quadrat: string
  distanceMetres: number
  value: number
}

/** What else is known at a moment. Every answer may be null or empty; a test that needs it then says “not evaluated”. */
export interface Surroundings {
  /** of the sun above the horizon; null: the place is not known */
  solarElevationDegrees(timeMs: number): number | null
  /** the value of another quantity at the same quadrat nearest to `timeMs`, at most `withinMs` away */
  sameQuadrat(quantity: string, timeMs: number, withinMs: number): number | null
  /** did the board begin a new start-up in the `withinMs` up to `timeMs`? null: it does not number its start-ups */
  sameBoardRestarted(timeMs: number, withinMs: number): boolean | null
  /**
   * same quantity and method at other quadrats (that near), the nearest twenty of those that have a value at most
   * `withinMs` away, with the value of each that is nearest in time
   */
  neighbours(timeMs: number, withinMs: number, withinMetres?: number): readonly Neighbour[]
}

/** So many readings away, from there so long, ends included, and from there so many further, none parted by a gap. */
export interface Context {
  ms: number
  readings: number
}

/** Each reading is judged alone. */
export const NO_CONTEXT: Context = { ms: 0, readings: 0 }

/** Readings of a series, by their places in it: from one to before another. */
export interface Places {
  from: number
  to: number
}

/** null: the reading passed. */
export type Finding = FlagReason | null | 'not evaluated'

/** What of a series is known before its readings are. */
export type SeriesTraits = Pick<Series, 'quantity' | 'signalUnit' | 'expectedIntervalMs'>

/** One test on a whole series: a pure function of the readings, its limits and the surroundings. */
export interface QualityTest<Config = unknown> {
  /** as stored and shown: lower case with hyphens */
  name: string
  title: string
  /** for a sixteen-year-old */
  explain: string
  source: string
  /** limits; the unit is in the name, or is that of the quantity where it says so */
  config: z.ZodType<Config>
  /** by quantity; for a quantity not listed the test is off */
  defaults: Readonly<Record<string, Config>>
  /** how far before and after a reading its finding can depend on other readings */
  context(config: Config): Context
  /** what comes after a reading never matters */
  looksBackOnly?: true
  /** of its own series it needs nothing but the reading: it asks what others read, as far away as the context says */
  asksOthersOnly?: true
  /** about readings that it is not to judge it seldom asks others: what they read then is fetched moment by moment */
  asksAboutJudged?: true
  /**
   * @param judged  whose findings are wanted: all, unless given; of the others any finding will do
   * @returns one finding per reading, in order
   * @throws RangeError when times fall or the columns differ in length: the caller's mistake, not the data's
   */
  run(series: Series, config: Config, around: Surroundings, judged?: Places): Finding[]
}
