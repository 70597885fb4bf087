import { messageOf, NoAnswer, Refusal } from '../client.ts'
import type { Capture } from './capture.ts'
import { carryClient } from './carry-client.ts'
import type { Sent } from './outbox.ts'

/** The hub is in trouble of its own, which passes: the capture is not at fault. */
const PASSING = /^(E_HUB|E_DISK|E_DATA_LOCKED|E_DATA_READ_ONLY|5\d\d|408|429)$/

/** Sends one capture with the phone’s clock at this moment, by which the hub finds out how wrong that clock is. */
export async function sendCapture(capture: Capture): Promise<Sent> {
  try {
    await carryClient.keep(capture.survey, { ...capture.spot, sentAt: new Date().toISOString() })
    return { as: 'kept' }
  } catch (error) {
    return sentOf(error)
  }
}

export function sentOf(error: unknown): Sent {
  if (!(error instanceof Refusal) || error instanceof NoAnswer || PASSING.test(error.code))
    return { as: 'unanswered' }
  return { as: 'refused', code: error.code, message: messageOf(error) }
}
