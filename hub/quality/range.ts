import type { FlagReason } from '../contract/flag.ts'
import { quantityFacts } from '../contract/quantity.ts'

/**
 * Gross range test: outside what the sensor could read → 4; outside what is likely in the field → 3.
 * A value equal to a limit passes.
 * @see IOOS QARTOD manuals, gross range test; the default spans are common practice
 */
export function testRange(quantity: string, value: number): FlagReason | null {
  const facts = quantityFacts(quantity)
  if (!facts) return null
  const [failLow, failHigh] = facts.failSpan
  if (value < failLow || value > failHigh)
    return reason(4, `${shown(value)} ${facts.unit} is outside what is possible, ${failLow} to ${failHigh}`)
  const [suspectLow, suspectHigh] = facts.suspectSpan
  if (value < suspectLow || value > suspectHigh)
    return reason(
      3,
      `${shown(value)} ${facts.unit} is outside what is likely, ${suspectLow} to ${suspectHigh}`,
    )
  return null
}

function reason(flag: 3 | 4, text: string): FlagReason {
  return { test: 'range', flag, text }
}

function shown(value: number): string {
  return String(Number(value.toPrecision(5)))
}
