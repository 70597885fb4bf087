import { type ParseArgsConfig, parseArgs } from 'node:util'
import { HubError, messageOf } from '../errors.ts'

/** One subcommand. `run` gives the exit code, or undefined for 0; a HubError it throws is printed with its remedy. */
export interface Command {
  name: string
  summary: string
  usage: string
  run(args: string[]): Promise<number | undefined>
}

type Options = NonNullable<ParseArgsConfig['options']>
type Config<T extends Options> = { args: string[]; options: T; allowPositionals: true }

/** Reads options; a misspelled one is refused by name, never ignored. */
export function readOptions<T extends Options>(
  args: string[],
  options: T,
): ReturnType<typeof parseArgs<Config<T>>> {
  try {
    return parseArgs<Config<T>>({ args, options, allowPositionals: true })
  } catch (error) {
    throw new HubError('E_COMMAND', `${messageOf(error).replace(/\.?$/, '.')}`, { cause: error })
  }
}

export function wholeNumber(text: string, what: string, low: number, high: number): number {
  const number = Number(text)
  if (!Number.isInteger(number) || number < low || number > high)
    throw new HubError(
      'E_COMMAND',
      `${what} should be a whole number from ${low} to ${high}, it is "${text}".`,
    )
  return number
}

export function printLine(text: string): void {
  process.stdout.write(`${text}\n`)
}
