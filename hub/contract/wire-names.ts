/** Names of boards, channels and probes: RFC 8428 names without separators, at most {@link NAME_LENGTH} long. */
export const NAME_ON_THE_WIRE = /^[A-Za-z0-9][A-Za-z0-9._-]*$/
export const NAME_LENGTH = 64

/** The checksum at the end of a serial line: see firmware-notes/PROTOCOL.md. */
export const TRAILER = /#([0-9A-F]{4})$/

/** Not a board: values that people read off a meter without a connection and type in. */
export const TYPED_BOARD = 'by-hand'
