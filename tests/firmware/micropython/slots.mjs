/** Places in the memory that the tests and the emulated Wi-Fi board share, 32 bits each. */
export const slots = {
  isClosed: 1,
  written: 2,
  read: 3,
  isConnected: 4,
  hasWifi: 5,
  rest: 6,
  lightCount: 7,
  hasLight: 8,
  sixteenths: 9,
  hasThermometer: 10,
  cupsMillihertz: 11,
  cupsBounces: 12,
  cupsBounceUs: 13,
  fed: 14,
  /** and so on: one for each pin */
  microvolt: 32,
}

export const SLOTS = 96
export const RING_BYTES = 65_536
