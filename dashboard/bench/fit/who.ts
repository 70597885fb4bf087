import { recall, remember } from '../remembered.ts'

/** The group label last used on this device. */
export function whoBefore(): string {
  return recall('who', '')
}

export function rememberWho(who: string): void {
  remember('who', who.trim())
}
