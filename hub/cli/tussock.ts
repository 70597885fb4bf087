#!/usr/bin/env -S node --max-semi-space-size=2
import { readVersion } from '../environment.ts'
import { HubError } from '../errors.ts'
import { type Command, printLine } from './command.ts'

/** Loaded only when asked for: a calculation should not wait for the broker's code. */
const commands: Record<string, () => Promise<Command>> = {
  start: async () => (await import('./start.ts')).start,
  calibrate: async () => (await import('./calibrate.ts')).calibrate,
  leave: async () => (await import('./leave.ts')).leave,
  readiness: async () => (await import('./readiness.ts')).readiness,
  survey: async () => (await import('./survey.ts')).survey,
  export: async () => (await import('./export.ts')).exportCommand,
  verify: async () => (await import('./verify.ts')).verify,
  summarise: async () => (await import('./summarise.ts')).summarise,
  join: async () => (await import('./join.ts')).join,
  picture: async () => (await import('./picture.ts')).picture,
  report: async () => (await import('./report.ts')).report,
  compute: async () => (await import('./compute.ts')).compute,
  explain: async () => (await import('./explain.ts')).explain,
  passphrase: async () => (await import('./passphrase.ts')).passphrase,
  log: async () => (await import('./log.ts')).log,
  service: async () => (await import('./service.ts')).service,
  doctor: async () => (await import('./doctor.ts')).doctor,
  backup: async () => (await import('./backup.ts')).backup,
  restore: async () => (await import('./restore.ts')).restore,
  quarantine: async () => (await import('./quarantine.ts')).quarantine,
  ports: async () => (await import('./ports.ts')).ports,
  'board-check': async () => (await import('./board-check.ts')).boardCheck,
  replay: async () => (await import('./replay.ts')).replay,
}

async function main([name, ...args]: string[]): Promise<number> {
  if (name === '--version') {
    printLine(readVersion())
    return 0
  }
  const isHelp = name === undefined || name === '--help' || name === 'help'
  const asked = isHelp ? args[0] : name
  if (asked === undefined) {
    printLine(await help())
    return 0
  }
  const command = Object.hasOwn(commands, asked) ? await commands[asked]!() : undefined
  if (!command) throw new HubError('E_COMMAND', `There is no command "${asked}".`)
  if (isHelp || args.includes('--help')) {
    printLine(`${command.summary}\n\n${command.usage}`)
    return 0
  }
  return (await command.run(args)) ?? 0
}

async function help(): Promise<string> {
  const all = await Promise.all(Object.values(commands).map((load) => load()))
  const width = Math.max(...all.map((command) => command.name.length))
  return [
    'Tussock: calibrated readings of a habitat, per quadrat, from a class’s own probes.',
    '',
    'Usage: tussock COMMAND [options]',
    '',
    ...all.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`),
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
