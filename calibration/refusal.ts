import type { RefusalCode } from './errors.ts'

/** An answer that could not be given, and why, in words a person can act on. A return value, never thrown. */
export interface Refusal {
  refused: true
  code: string
  message: string
}

/** Makes a refusal from the catalogue in errors.ts; the message quotes what was received and what to do. */
export function refuse(code: RefusalCode, message: string): Refusal {
  return { refused: true, code, message }
}

/** True when an answer is a refusal; narrows the type. */
export function isRefusal(answer: unknown): answer is Refusal {
  return typeof answer === 'object' && answer !== null && (answer as { refused?: unknown }).refused === true
}
