#!/usr/bin/env node
import { HubError } from '../errors.ts'
import { readVersion } from '../main.ts'
import { type Command, printLine } from './command.ts'
import { compute } from './compute.ts'
import { explain } from './explain.ts'
import { exportCommand } from './export.ts'
import { ports } from './ports.ts'
import { quarantine } from './quarantine.ts'
import { replay } from './replay.ts'
import { start } from './start.ts'
import { survey } from './survey.ts'

const commands: Command[] = [start, survey, exportCommand, compute, explain, quarantine, ports, replay]

async function main([name, ...args]: string[]): Promise<number> {
  if (name === '--version') {
    printLine(readVersion())
    return 0
  }
  if (name === undefined || name === '--help' || name === 'help') {
    const [topic] = args
    const about = commands.find((command) => command.name === topic)
    printLine(about ? `${about.summary}\n\n${about.usage}` : help())
    return 0
  }
  const command = commands.find((candidate) => candidate.name === name)
  if (!command) throw new HubError('E_COMMAND', `There is no command "${name}".`)
  if (args.includes('--help')) {
    printLine(`${command.summary}\n\n${command.usage}`)
    return 0
  }
  return (await command.run(args)) ?? 0
}

function help(): string {
  const width = Math.max(...commands.map((command) => command.name.length))
  return [
    'Tussock: calibrated readings of a habitat, per quadrat, from a class’s own probes.',
    '',
    'Usage: tussock COMMAND [options]',
    '',
    ...commands.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`),
    '',
    'tussock COMMAND --help tells more.',
  ].join('\n')
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0)
  throw error
})
try {
  process.exitCode = await main(process.argv.slice(2))
} catch (error) {
  if (!(error instanceof HubError)) throw error
  process.stderr.write(`${error.code}: ${error.said}\n`)
  process.exitCode = error.code === 'E_COMMAND' ? 2 : 1
}
