import { text } from 'node:stream/consumers'
import { describeComputations, runComputation } from '../compute/index.ts'
import { HubError, messageOf } from '../errors.ts'
import { type Command, printLine, readOptions } from './command.ts'

export const compute: Command = {
  name: 'compute',
  summary: 'Do one of the hub’s calculations: JSON in, JSON out',
  usage: `tussock compute NAME < input.json     the answer on standard output; a refusal on standard error, exit 2
tussock compute --list                  every calculation with its input, output, units and source`,

  async run(args) {
    const { values, positionals } = readOptions(args, { list: { type: 'boolean', default: false } })
    if (values.list) {
      printLine(JSON.stringify(describeComputations(), null, 2))
      return 0
    }
    const [name] = positionals
    if (name === undefined) throw new HubError('E_COMMAND', 'Name a calculation, or ask for --list.')
    let input: unknown
    try {
      input = JSON.parse(await text(process.stdin))
    } catch (error) {
      return refuse('E_INPUT', `The input is not JSON (${messageOf(error)}).`)
    }
    const answer = runComputation(name, input)
    if (typeof answer === 'object' && answer !== null && 'refused' in answer)
      return refuse(
        String((answer as { code?: unknown }).code),
        String((answer as { message?: unknown }).message),
      )
    printLine(JSON.stringify(answer))
    return 0
  },
}

function refuse(code: string, message: string): number {
  process.stderr.write(`${JSON.stringify({ error: { code, message } })}\n`)
  return 2
}
