/**
 * Every refusal the hub gives, in one place: its HTTP status and what to do about it.
 * The message itself is written where it happens, because only there is it known what was received.
 */
export const errorCatalogue = {
  E_LINE_TOO_LONG: { status: 400, remedy: 'End each line with a line feed, and keep it under 64 KiB.' },
  E_MESSAGE_TOO_LONG: { status: 400, remedy: 'Send fewer records in one message: 64 KiB at the most.' },
  E_NOT_TEXT: { status: 400, remedy: 'Check the baud rate and the cable; text on the wire is UTF-8.' },
  E_LINE_UNREADABLE: {
    status: 400,
    remedy: 'Check what the sketch prints, or give this board a column map.',
  },
  E_CHECKSUM: {
    status: 400,
    remedy: 'Check the cable and the baud rate; the board should send the line again.',
  },
  E_SENML: { status: 400, remedy: 'Correct the pack: see firmware-notes/PROTOCOL.md and RFC 8428.' },
  E_COLUMNS: { status: 400, remedy: 'Compare the order in which the sketch prints with the column map.' },
  E_TOO_MANY_RECORDS: { status: 400, remedy: 'Send at most 1000 records in one message.' },
  E_BOARD_NAME: {
    status: 400,
    remedy: 'Name records board/channel, with letters, digits, dot, dash, underscore.',
  },
  E_OTHER_BOARD: { status: 403, remedy: 'A board publishes under its own name: use its name in the topic.' },
  E_BOARD_KEY: {
    status: 403,
    remedy: 'Give the board its own name and key, or make it a new key on the page Boards.',
  },
  E_NAME_CLASH: { status: 409, remedy: 'Two boards use this name: give one of them another name.' },
  E_TOPIC: {
    status: 400,
    remedy: 'Publish to tussock/BOARD/pack, tussock/BOARD/columns or tussock/BOARD/link.',
  },
  E_PORT_GONE: { status: 503, remedy: 'Reconnect the cable; the hub tries again by itself.' },
  E_PORT_BUSY: {
    status: 409,
    remedy: 'Close the other program that has this port open (a serial monitor?).',
  },
  E_PORT_PERMISSION: { status: 403, remedy: 'Add your user to the group dialout and log in again.' },
  E_PORT_MISSING: { status: 404, remedy: 'Plug the board in, or choose another port.' },
  E_PORT_SILENT: { status: 503, remedy: 'Press reset on the board; check its supply and the baud rate.' },
  E_PORT_LIST: { status: 503, remedy: 'Install udev (apt install udev), or name the port by its path.' },
  E_BROKER_PORT: { status: 409, remedy: 'Stop the other broker, use --mqtt-port, or use it with --broker.' },
  E_BROKER_GONE: { status: 503, remedy: 'Start the broker again; the hub reconnects by itself.' },
  E_HTTP_PORT: {
    status: 409,
    remedy: 'Another program uses this address: stop it, or choose another --port.',
  },
  E_DATA_LOCKED: {
    status: 409,
    remedy: 'Another hub has this data folder open: stop it, or choose another --data.',
  },
  E_DATA_READ_ONLY: {
    status: 500,
    remedy: 'Choose a folder that may be written with --data, or correct its permissions.',
  },
  E_DATA_NEWER: { status: 500, remedy: 'Use the newer Tussock that wrote it, or choose another --data.' },
  E_DATA_NOT_OURS: { status: 500, remedy: 'Choose another --data folder.' },
  E_DISK: {
    status: 507,
    remedy: 'Free some space on the disk: the hub keeps trying and boards keep their backlog.',
  },
  E_BACKUP: { status: 503, remedy: 'Choose another folder or stick, or free some space on it.' },
  E_RESTORE: {
    status: 503,
    remedy: 'Run the restore again, from another backup if need be: nothing was removed.',
  },
  E_SURVEY_FILE: {
    status: 422,
    remedy: 'Correct the places named and load the file again; nothing was changed.',
  },
  E_SURVEY_UNKNOWN: { status: 404, remedy: 'Look at the list of surveys, or load the survey file first.' },
  E_QUERY: {
    status: 400,
    remedy: 'Correct the parameter named; times need their zone, such as 2026-06-12T09:30:00Z.',
  },
  E_BODY: { status: 400, remedy: 'Send JSON as /api/openapi.json describes it.' },
  E_SPOT_TIME: { status: 422, remedy: 'Hold the meter again; the times are those of its own readings.' },
  E_SPOT_ELSEWHERE: {
    status: 409,
    remedy: 'Take one of the two spot readings back, or hold the meter again.',
  },
  E_SPOT_ID: { status: 409, remedy: 'Send it under an id of its own.' },
  E_QUADRAT_LIFTED: {
    status: 409,
    remedy: 'Choose another quadrat, or put this one back on the plan.',
  },
  E_ASK: { status: 409, remedy: 'Look at it, and say that it is meant so.' },
  E_NO_SPECIES: { status: 409, remedy: 'Add the table of species on the page “Study”, or with --species.' },
  E_NOT_FOUND: { status: 404, remedy: 'Look at /api/openapi.json for what there is.' },
  E_CAPTURE: { status: 400, remedy: 'Use a file that this hub wrote with --record.' },
  E_CALIBRATION_FILE: { status: 400, remedy: 'Correct the file: tussock calibrate --help shows its form.' },
  E_NO_HUB: {
    status: 503,
    remedy: 'Start the hub (tussock start) and connect the board, or use --points FILE.',
  },
  E_COMMAND: { status: 400, remedy: 'Run tussock --help for the commands there are.' },
  E_REHEARSAL: { status: 409, remedy: 'End the rehearsal first, or start the hub without one.' },
  E_HOST: { status: 403, remedy: 'Open the page from the address the hub printed.' },
  E_TEACHER: {
    status: 403,
    remedy: 'Enter with the teacher’s passphrase, or do it at the hub’s own screen.',
  },
  E_CODE: { status: 401, remedy: 'Ask the teacher for the class code.' },
  E_WRONG_SECRET: { status: 403, remedy: 'Try again; capital letters count.' },
  E_WAIT: { status: 429, remedy: 'Wait a little, then try again.' },
  E_PASSPHRASE: {
    status: 403,
    remedy: 'Set one with “tussock passphrase”, then start the hub again.',
  },
  E_CERTIFICATE: { status: 500, remedy: 'Give the certificate and its own key, both as PEM files.' },
  E_ACCESS_FILE: { status: 500, remedy: 'Set the passphrase anew with “tussock passphrase”.' },
  E_ELSEWHERE: { status: 403, remedy: 'Open the page from the address the hub printed.' },
} as const

export type ErrorCode = keyof typeof errorCatalogue

/** A refusal with a code of the catalogue. Its text says what happened and where; `remedy` says what to do. */
export class HubError extends Error {
  readonly code: ErrorCode
  constructor(code: ErrorCode, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'HubError'
    this.code = code
  }
  get remedy(): string {
    return errorCatalogue[this.code].remedy
  }
  get status(): number {
    return errorCatalogue[this.code].status
  }
  /** what a person reads: what happened, then what to do */
  get said(): string {
    return `${this.message} ${this.remedy}`
  }
}

export function isErrorCode(code: string): code is ErrorCode {
  return code in errorCatalogue
}

/** Node and SQLite errors carry a `code` string; anything else has none. */
export function systemCode(error: unknown): string {
  const code = (error as { code?: unknown } | null)?.code
  return typeof code === 'string' ? code : ''
}

/** An error that has crossed from another thread as its code and message. */
export function errorFrom({ code, message }: { code: string; message: string }): Error {
  return isErrorCode(code) ? new HubError(code, message) : new Error(message)
}

export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
