import { type ErrorCode, HubError } from '../errors.ts'

/** What a person reads of a source's trouble: its code, what happened, and what to do. */
export function troubleText(code: ErrorCode, message: string): string {
  return `${code}: ${new HubError(code, message).said}`
}
