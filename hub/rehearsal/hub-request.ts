/** What the hub may say to a board, on serial and on MQTT alike. */
export type HubRequest =
  | { readonly kind: 'kept'; readonly startup: number; readonly message: number }
  | { readonly kind: 'who' }
  | { readonly kind: 'time'; readonly unixSeconds: number }
  | { readonly kind: 'every'; readonly seconds: number }

/** @returns null for what this board does not know, which it ignores */
export function understandRequest(text: string): HubRequest | null {
  const words = text.trim().split(' ')
  const numbers = words.slice(1).map(Number)
  const [first, second] = numbers
  if (numbers.some((number) => !Number.isFinite(number))) return null
  if (words[0] === 'who' && first === undefined) return { kind: 'who' }
  if (first === undefined) return null
  if (words[0] === 'kept' && second !== undefined) return { kind: 'kept', startup: first, message: second }
  if (words[0] === 'time') return { kind: 'time', unixSeconds: first }
  if (words[0] === 'every' && first >= 0.2 && first <= 86_400) return { kind: 'every', seconds: first }
  return null
}

/** Cuts what comes over a cable into lines; a line without end is not kept for ever. */
export function requestLines(onLine: (line: string) => void): (bytes: Uint8Array) => void {
  let held = ''
  return (bytes) => {
    held += Buffer.from(bytes).toString('latin1')
    const lines = held.split('\n')
    held = (lines.pop() ?? '').slice(-256)
    for (const line of lines) onLine(line)
  }
}
