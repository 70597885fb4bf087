import type { Decision } from '../../../hub/contract/survey.ts'
import { clockText, momentText } from '../../format-time.ts'

export const actionWords: Record<Decision['action'], string> = {
  exclude: 'left out',
  accept: 'suspect ones accepted',
}

/** `12 Jun 2026, 10:42:07 to 10:45:00`; the day of the end only where it is another. */
export function spanWords(fromMs: number, toMs: number, zone?: string): string {
  const [from, to] = [momentText(fromMs, zone), momentText(toMs, zone)]
  const isSameDay = from.split(',')[0] === to.split(',')[0]
  return `${from} to ${isSameDay ? clockText(toMs, zone) : to}`
}
