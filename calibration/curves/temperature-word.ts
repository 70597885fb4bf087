import { type Refusal, refuse } from '../refusal.ts'

/** What drivers of 1-Wire thermometers report when the sensor does not answer, °C. */
export const FAULT_CELSIUS = -127

/** One step of the sensor's word, °C. */
export const STEP_CELSIUS = 1 / 16

/**
 * The 16-bit word of a digital thermometer, two's complement in sixteenths of a degree, to °C.
 * @param word  `0xFF5E`, `FF5E`, or the number 65374 or −162
 * @see DS18B20 data sheet, temperature/data relationship table
 * @example 0xFF5E is −10.125 °C
 */
export function celsiusFromWord(word: string | number): number | Refusal {
  const raw = typeof word === 'number' ? word : parseHex(word)
  if (raw === null || !Number.isInteger(raw) || raw < -0x8000 || raw > 0xffff) {
    return refuse('E_SETTING', `“${word}” is not a 16-bit word; write it as 0x0191 or as a whole number.`)
  }
  return wordToCelsius(raw)
}

/** As {@link celsiusFromWord}, for a whole number already known to fit in 16 bits. */
export function wordToCelsius(raw: number): number {
  return (raw > 0x7fff ? raw - 0x10000 : raw) * STEP_CELSIUS
}

function parseHex(text: string): number | null {
  const digits = text.trim().replace(/^0x/i, '')
  return /^[0-9a-f]{1,4}$/i.test(digits) ? Number.parseInt(digits, 16) : null
}
