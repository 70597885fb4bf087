import type { Counts } from './truth-file.ts'

/** What the rehearsal tells the program that started it, one JSON object a line on standard output. */
export type ParentLine =
  | { readonly kind: 'survey'; readonly survey: object }
  /** a serial board can be reached here; again, and perhaps elsewhere, after an unplug */
  | { readonly kind: 'port'; readonly path: string; readonly board: string; readonly baudRate: number }
  | { readonly kind: 'ready' }
  | {
      readonly kind: 'fault'
      readonly fault: string
      /** null for a fault of the whole class */
      readonly board: string | null
      /** simulated epoch milliseconds */
      readonly at: number
      readonly text: string
    }
  /** the answer to a put on standard input: it is done, or why it is not */
  | {
      readonly kind: 'put-done'
      readonly board: string
      readonly channel: string
      readonly where: string
      readonly text: string
    }
  | { readonly kind: 'put-refused'; readonly text: string }
  | { readonly kind: 'note'; readonly text: string }
  | ({ readonly kind: 'done'; readonly unacknowledged: number } & Counts)

export type TellParent = (line: ParentLine) => void

export const tellParent: TellParent = (line) => {
  process.stdout.write(`${JSON.stringify(line)}\n`)
}
