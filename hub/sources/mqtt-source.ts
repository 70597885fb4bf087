/** Word of a board's link: it connected, or its last will came. */
export type OnLink = (board: string, isUp: boolean) => void

/** MQTT as the hub sees it, whichever broker carries it. */
export interface MqttSource {
  readonly description: string
  readonly port: number
  status(): { state: 'open' | 'gone'; trouble: string | null }
  /** Publishes words to `tussock/BOARD/ask`. */
  say(board: string, words: string): void
  close(): Promise<void>
}
