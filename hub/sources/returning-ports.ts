import type { PortFound, PortList } from './list-ports.ts'
import type { OnePort } from './one-port.ts'
import type { Frame, Receive, Settled } from './source.ts'

/** What finding a board again stands on. */
export interface Finding {
  /** the serial ports of this machine at the moment */
  list(): Promise<PortList>
  /** what a board calls itself in a frame; null when the frame does not say */
  nameIn(frame: Frame): string | null
  /** a port is kept under another name from now on */
  moved(from: string, to: string): void
  /** what is on a port, as {@link identityBefore} is to say it at the next start; null: it has no identity of its own */
  identified(path: string, board: string | null, identity: string | null): void
  /** what was on a port, or was a board's, when it was last open; null when nothing is known of it */
  identityBefore(path: string, board: string | null): string | null
}

/** The kept ports, as the search sees them. */
export interface SearchedPorts {
  /** where what kept ports hear goes */
  readonly receive: Receive
  all(): readonly OnePort[]
  /** A port like a lost one, on another path, not kept yet. */
  make(lost: OnePort, path: string, receive: Receive): OnePort
  replace(lost: OnePort, found: OnePort): void
}

/** what is known of the device on a port since it was opened */
interface Known {
  identity: string | null
  usbId: string | null
  /** the ports that were there beside it */
  beside: ReadonlySet<string>
}

/** a board answers `who` within this; one that resets when its port opens is greeted after that already */
const ANSWERS_WITHIN_MS = 5000
/** a stranger that talks this much without naming itself is not waited for any longer */
const HELD_AT_MOST = 200

/**
 * Finds a board again whose port has gone and which has come back under another name, as USB ports do: by the identity
 * of its USB side, where that has a serial number of its own; otherwise by asking on ports that are new since then who is
 * there. Other people's devices are left alone: a port that was there before is never opened, and a stranger's once only.
 */
export class ReturningPorts {
  readonly #finding: Finding
  readonly #ports: SearchedPorts
  readonly #known = new WeakMap<OnePort, Known>()
  /** ports where a stranger was, until they go */
  readonly #strangers = new Set<string>()
  #trial: { port: OnePort; timer: NodeJS.Timeout } | null = null

  constructor(finding: Finding, ports: SearchedPorts) {
    this.#finding = finding
    this.#ports = ports
  }

  heard(port: OnePort, frame: Frame): void {
    port.name ??= this.#finding.nameIn(frame)
  }

  /** Notes what is on the port, for the day it goes. */
  opened(port: OnePort): void {
    void this.#list().then((found) => {
      if (!found) return
      const here = found.find(({ path }) => path === port.path)
      const identity = here ? identityOf(here, found) : null
      const beside = new Set(found.map(({ path }) => path).filter((path) => path !== port.path))
      this.#known.set(port, { identity, usbId: here?.usbId ?? null, beside })
      if (this.#trial?.port !== port) this.#finding.identified(port.path, port.board, identity)
    })
  }

  /** Whether it is known which device belongs on a port, so that it is looked for before the port is opened. */
  isExpecting(port: OnePort): boolean {
    return this.#identityOn(port) !== null
  }

  /**
   * Looks where the device of a lost port is, and keeps it there from now on.
   * @returns whether the port itself may be tried: not when it has moved, or another lost device is there now
   */
  async mayRetry(lost: OnePort): Promise<boolean> {
    if (!isLost(lost)) return true
    const found = await this.#list()
    if (!found || !isLost(lost)) return true
    const identity = this.#identityOn(lost)
    const known = this.#known.get(lost)
    for (const path of this.#strangers)
      if (!found.some((port) => port.path === path)) this.#strangers.delete(path)
    const moved = found.find(
      (port) => port.path !== lost.path && identity !== null && identityOf(port, found) === identity,
    )
    if (moved && !this.#isHeld(moved.path)) {
      this.#moveTo(lost, moved.path)
      return false
    }
    const here = found.find(({ path }) => path === lost.path)
    if (here && this.#isOfAnother(here, found, lost)) return false
    if (known && lost.name !== null && (!here || lost.isGivenUp)) {
      const fresh = found.find(
        (port) => mayBe(port, known, found) && !this.#strangers.has(port.path) && !this.#isKept(port.path),
      )
      if (fresh) this.#askAt(fresh.path, lost)
    }
    return true
  }

  stop(): void {
    if (this.#trial) this.#endTrial()
  }

  #moveTo(lost: OnePort, path: string): void {
    const { board, name } = lost
    const found = this.#ports.make(lost, path, this.#ports.receive)
    this.#settle(lost, found, 'the serial number of its USB side')
    Object.assign(found, { board, name })
    found.attempt()
  }

  #settle(lost: OnePort, found: OnePort, by: string): void {
    found.note = `This board was on ${lost.path}; it came back here and was recognised by ${by}.`
    this.#ports.replace(lost, found)
  }

  /** Opens a port that is new, keeps back what comes from there, and asks who it is. */
  #askAt(path: string, lost: OnePort): void {
    if (this.#trial) return
    const held: [Frame, Settled | undefined][] = []
    let receive: Receive = (frame, settled) => {
      if (this.#trial?.port !== found) return
      held.push([frame, settled])
      const name = this.#finding.nameIn(frame)
      const owner = name === null ? undefined : this.#lostNamed(name, found.baudRate)
      if (!owner) {
        if (name !== null || held.length >= HELD_AT_MOST) this.#isStranger()
        return
      }
      clearTimeout(this.#trial?.timer)
      this.#trial = null
      Object.assign(found, { board: owner.board, name })
      receive = (frame, settled) =>
        this.#ports.receive({ ...frame, board: frame.board ?? owner.board }, settled)
      this.#settle(owner, found, 'its own answer')
      for (const [frame, settled] of held) receive(frame, settled)
    }
    const found = this.#ports.make(lost, path, (frame, settled) => receive(frame, settled))
    const waitMs = lost.timings.greetAfterMs + ANSWERS_WITHIN_MS
    this.#trial = { port: found, timer: setTimeout(() => this.#isStranger(), waitMs) }
    found.attempt()
  }

  #isStranger(): void {
    if (this.#trial) this.#strangers.add(this.#trial.port.path)
    this.#endTrial()
  }

  #endTrial(): void {
    clearTimeout(this.#trial?.timer)
    this.#trial?.port.close()
    this.#trial = null
  }

  #lostNamed(name: string, baudRate: number): OnePort | undefined {
    return this.#ports
      .all()
      .find((port) => port.state === 'gone' && port.name === name && port.baudRate === baudRate)
  }

  #identityOn(port: OnePort): string | null {
    const known = this.#known.get(port)
    return known ? known.identity : this.#finding.identityBefore(port.path, port.board)
  }

  #isKept(path: string): boolean {
    return this.#ports.all().some((port) => port.path === path)
  }

  /** kept, and not only because something else was there once */
  #isHeld(path: string): boolean {
    return this.#ports.all().some((port) => port.path === path && !isLost(port))
  }

  /** Whether what is on a lost port's path is known to be another board's: open there by now, or lost as well. */
  #isOfAnother(here: PortFound, found: readonly PortFound[], lost: OnePort): boolean {
    const identity = identityOf(here, found)
    const isIts = (port: OnePort) =>
      isLost(port) ? identity !== null && this.#identityOn(port) === identity : port.path === here.path
    return this.#ports.all().some((port) => port !== lost && isIts(port))
  }

  /** null: they cannot be listed, so nothing is known */
  #list(): Promise<PortFound[] | null> {
    return this.#finding.list().then(
      ({ ports }) => ports,
      () => null,
    )
  }
}

/** not there, or not looked for yet */
function isLost(port: OnePort): boolean {
  return port.state === 'gone' || port.state === 'opening'
}

/**
 * Only a serial number beside maker and product is a device's own, and only when no other that is there has the same: some
 * makers give all of theirs one number.
 */
function identityOf({ usbId, serialNumber }: PortFound, found: readonly PortFound[]): string | null {
  if (usbId === undefined || serialNumber === undefined) return null
  const alike = found.filter((port) => port.usbId === usbId && port.serialNumber === serialNumber)
  return alike.length === 1 ? `${usbId} ${serialNumber}` : null
}

/** Whether the device on a port could be the one that is looked for. */
function mayBe(port: PortFound, known: Known, found: readonly PortFound[]): boolean {
  if (known.beside.has(port.path)) return false
  if (known.usbId !== null && port.usbId !== undefined && port.usbId !== known.usbId) return false
  return known.identity === null || identityOf(port, found) === null
}
