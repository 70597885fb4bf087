/** What is known of a board from hearing it; held in memory, begun anew with the hub. */
export interface BoardSeen {
  name: string
  lastHeardMs: number
  source: string
  link: 'up' | 'lost' | null
  startup: number | null
  messages: number
  /** messages whose numbers were skipped, within the present start-up */
  missed: number
  trouble: string | null
}

interface Watched extends BoardSeen {
  highest: number | null
  formerStartup: number | null
  formerSource: string
  formerSourceMs: number
}

const CLASH_WINDOW_MS = 60_000

/** Far more than a class has; where boards need no key, names can be invented without end. */
const BOARDS_AT_MOST = 1000

/** Keeps an eye on who is talking, on what was missed, and on two boards using one name. */
export class BoardWatch {
  readonly #boards = new Map<string, Watched>()

  heard(
    name: string,
    source: string,
    atMs: number,
    startup: number | null,
    number: number | null,
    isRepeat = false,
  ): void {
    const board = this.#get(name, source)
    if (board.source !== source) {
      const isBackSoon = board.formerSource === source && atMs - board.formerSourceMs < CLASH_WINDOW_MS
      if (isBackSoon && board.source !== '') this.#sayClash(board)
      board.formerSource = board.source
      board.formerSourceMs = board.lastHeardMs
      board.source = source
    }
    // a repeat tells that the board is there, and nothing about what was sent since
    if (!isRepeat) this.#count(board, startup, number)
    board.lastHeardMs = Math.max(board.lastHeardMs, atMs)
    board.messages++
  }

  #count(board: Watched, startup: number | null, number: number | null): void {
    if (startup !== board.startup) {
      if (startup !== null && startup === board.formerStartup) this.#sayClash(board)
      board.formerStartup = board.startup
      board.startup = startup
      board.highest = null
      board.missed = 0
    }
    if (number !== null) {
      if (board.highest !== null && number > board.highest + 1) board.missed += number - board.highest - 1
      else if (board.highest !== null && number < board.highest && board.missed > 0) board.missed--
      board.highest = Math.max(board.highest ?? number, number)
    }
  }

  linked(name: string, source: string, isUp: boolean): void {
    this.#get(name, source).link = isUp ? 'up' : 'lost'
  }

  clash(name: string): void {
    const board = this.#boards.get(name)
    if (board) this.#sayClash(board)
  }

  seen(): BoardSeen[] {
    return [...this.#boards.values()].map(
      ({ name, lastHeardMs, source, link, startup, messages, missed, trouble }) => ({
        name,
        lastHeardMs,
        source,
        link,
        startup,
        messages,
        missed,
        trouble,
      }),
    )
  }

  sourceOf(name: string): string | null {
    return this.#boards.get(name)?.source ?? null
  }

  #sayClash(board: Watched): void {
    board.trouble = `Two boards seem to use the name "${board.name}". Give one of them another name; their readings cannot be told apart.`
  }

  #forgetOne(): void {
    let longestAgo: Watched | undefined
    for (const board of this.#boards.values())
      if (!longestAgo || board.lastHeardMs < longestAgo.lastHeardMs) longestAgo = board
    if (longestAgo) this.#boards.delete(longestAgo.name)
  }

  #get(name: string, source: string): Watched {
    let board = this.#boards.get(name)
    if (!board) {
      if (this.#boards.size >= BOARDS_AT_MOST) this.#forgetOne()
      board = {
        name,
        lastHeardMs: 0,
        source,
        link: null,
        startup: null,
        messages: 0,
        missed: 0,
        trouble: null,
        highest: null,
        formerStartup: null,
        formerSource: '',
        formerSourceMs: 0,
      }
      this.#boards.set(name, board)
    }
    return board
  }
}
