import type { Socket } from 'node:net'
import { MAX_FRAME_BYTES } from './source.ts'

/**
 * The longest MQTT packet that is taken, bytes after its first five. The broker's parser gathers a packet whole, and a
 * packet may say that it has 256 MB. What is longer than a message may be, but not without measure, is still taken, so
 * that the hub can say what was wrong with it.
 */
export const MAX_PACKET_BYTES = 16 * MAX_FRAME_BYTES
/** …and the first, in which a client says who it is: before that it is a stranger. */
const FIRST_PACKET_BYTES = 16_384

const MORE = 0x80
const LENGTH_BYTES_AT_MOST = 4

/** Follows the fixed headers of MQTT packets (MQTT 3.1.1 §2.2) in bytes as they pass, and tells of one that is too long. */
export class PacketCeiling {
  readonly #mostBytes: number
  /** of the present packet */
  #most: number
  /** bytes of the present packet that are still to come */
  #left = 0
  #length = 0
  /** bytes of the remaining length that have passed; null before the packet's first byte */
  #lengthBytes: number | null = null

  constructor(firstBytes = FIRST_PACKET_BYTES, mostBytes = MAX_PACKET_BYTES) {
    this.#most = firstBytes
    this.#mostBytes = mostBytes
  }

  /** @returns false once a packet says that it is longer than the ceiling, or says it in more than four bytes */
  admits(chunk: Uint8Array): boolean {
    for (let at = 0; at < chunk.length; ) {
      if (this.#left > 0) {
        const passed = Math.min(this.#left, chunk.length - at)
        this.#left -= passed
        at += passed
        continue
      }
      const byte = chunk[at++]!
      if (this.#lengthBytes === null) {
        this.#lengthBytes = 0
        this.#length = 0
        continue
      }
      this.#length += (byte & ~MORE) * MORE ** this.#lengthBytes++
      const isWhole = (byte & MORE) === 0
      if (this.#length > this.#most || (!isWhole && this.#lengthBytes === LENGTH_BYTES_AT_MOST)) return false
      if (!isWhole) continue
      this.#left = this.#length
      this.#most = this.#mostBytes
      this.#lengthBytes = null
    }
    return true
  }
}

/** Ends a connection as soon as it announces a packet above the ceiling, before any of it is gathered. */
export function keepPacketsShort(socket: Socket): Socket {
  const ceiling = new PacketCeiling()
  const read = socket.read.bind(socket)
  // the broker takes its bytes by read(): watched there, they are neither copied nor sent through another stream
  socket.read = (size?: number): Buffer | null => {
    const chunk: Buffer | null = read(size)
    if (chunk === null || ceiling.admits(chunk)) return chunk
    socket.destroy(new Error('a packet longer than this broker takes'))
    return null
  }
  return socket
}
