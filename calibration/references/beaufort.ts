/** One force of the wind: from this speed, at 10 m over open ground, m/s. */
export interface WindForce {
  force: number
  name: string
  fromMetresPerSecond: number
}

/** WMO-No. 8, Beaufort equivalents at 10 m; forces 2, 5, 8 and 11 from memory, between verified neighbours. */
export const WIND_FORCES: readonly WindForce[] = [
  { force: 0, name: 'calm', fromMetresPerSecond: 0 },
  { force: 1, name: 'light air', fromMetresPerSecond: 0.3 },
  { force: 2, name: 'light breeze', fromMetresPerSecond: 1.6 },
  { force: 3, name: 'gentle breeze', fromMetresPerSecond: 3.4 },
  { force: 4, name: 'moderate breeze', fromMetresPerSecond: 5.5 },
  { force: 5, name: 'fresh breeze', fromMetresPerSecond: 8 },
  { force: 6, name: 'strong breeze', fromMetresPerSecond: 10.8 },
  { force: 7, name: 'near gale', fromMetresPerSecond: 13.9 },
  { force: 8, name: 'gale', fromMetresPerSecond: 17.2 },
  { force: 9, name: 'strong gale', fromMetresPerSecond: 20.8 },
  { force: 10, name: 'storm', fromMetresPerSecond: 24.5 },
  { force: 11, name: 'violent storm', fromMetresPerSecond: 28.5 },
  { force: 12, name: 'hurricane', fromMetresPerSecond: 32.7 },
]
