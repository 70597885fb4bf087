/** One thing the protocol asks of a board, and how this board did. */
export interface Point {
  /** a word or two of firmware-notes/PROTOCOL.md */
  name: string
  verdict: 'right' | 'wrong' | 'not tested'
  /** what was received, or why it could not be seen */
  saw: string
}

export const right = (name: string, saw: string): Point => ({ name, verdict: 'right', saw })
export const wrong = (name: string, saw: string): Point => ({ name, verdict: 'wrong', saw })
export const untested = (name: string, saw: string): Point => ({ name, verdict: 'not tested', saw })

/** What came, short enough for one line of a report. */
export function shown(text: string): string {
  const printable = text.replace(/[^ -~\u00a0-\uffff]/g, '·')
  return printable.length > 90 ? `${printable.slice(0, 90)}…` : printable
}
