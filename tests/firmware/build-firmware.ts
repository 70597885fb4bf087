import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))
const built = join(root, '.build/firmware')

/** What building and emulating a board stands on, and the Debian package each part comes with. */
const parts = [
  { file: '/usr/bin/make', package: 'make' },
  { file: '/usr/bin/gcc', package: 'gcc' },
  { file: '/usr/bin/g++', package: 'g++' },
  { file: '/usr/bin/avr-gcc', package: 'gcc-avr' },
  { file: '/usr/lib/avr/include/avr/io.h', package: 'avr-libc' },
  { file: '/usr/share/arduino/hardware/arduino/avr/cores/arduino/Arduino.h', package: 'arduino-core-avr' },
  { file: '/usr/include/simavr/sim_avr.h', package: 'libsimavr-dev' },
] as const

/** @throws Error naming the packages to install: without them the firmware would go untested, and unseen */
export function needCompilers(isThere: (file: string) => boolean = existsSync): void {
  const missing = parts.filter(({ file }) => !isThere(file)).map((part) => part.package)
  if (missing.length > 0)
    throw new Error(`The firmware cannot be built and run: apt install ${missing.join(' ')}`)
}

/** Builds the program that runs firmware on an emulated board. @returns its path */
export function buildBench(): string {
  make(join(root, 'tests/firmware/emulator'), [`OUT=${built}`])
  return join(built, 'bench')
}

/**
 * Builds a sketch as it stands, with other settings where a test needs them.
 * @param settings such as `{ BAUD_RATE: 9600 }`: names of `settings.h`
 * @returns the path of what goes into the board's flash
 */
export function buildSketch(
  sketch: 'serial-board' | 'first-lesson',
  settings: Record<string, number> = {},
): string {
  // the emulated board has no boot loader
  const entries = Object.entries(sketch === 'serial-board' ? { BOOT_MILLIS: 0, ...settings } : settings)
  const out = join(built, [sketch, ...entries.map(([name, value]) => `${name}-${value}`)].join('-'))
  const options = entries.map(([name, value]) => `-D${name}=${value}`).join(' ')
  make(join(root, 'firmware-notes'), [
    `SKETCH=${sketch}`,
    `OUT=${out}`,
    `CORE_OUT=${join(built, 'core')}`,
    `OPTIONS=${options}`,
  ])
  return join(out, 'board.elf')
}

/** Builds and runs a program for this computer from some of the serial board's sources and a file of `host/`. */
export function runOnThisComputer(test: string, sources: readonly string[], input = ''): string {
  needCompilers()
  mkdirSync(built, { recursive: true })
  const program = join(built, test.replace('.cpp', ''))
  const folder = join(root, 'firmware-notes/serial-board')
  run('g++', [
    ...['-std=gnu++11', '-Wall', '-Wextra', '-Werror', '-fsanitize=undefined', '-fno-sanitize-recover=all'],
    ...[`-I${folder}`, '-o', program, join(root, 'tests/firmware/host', test)],
    ...sources.map((source) => join(folder, source)),
  ])
  return run(program, [], input)
}

/** One at a time: test files run side by side, and share what is built. */
function make(folder: string, variables: readonly string[]): void {
  needCompilers()
  mkdirSync(built, { recursive: true })
  run('flock', [join(built, 'lock'), 'make', '-C', folder, ...variables])
}

/** Runs a script of `host/` in MicroPython, with the Wi-Fi board's files beside it. */
export function runInMicroPython(script: string, input = ''): string {
  const runner = join(root, 'tests/firmware/host/run-micropython.mjs')
  return run(process.execPath, [runner, script], input)
}

function run(command: string, args: readonly string[], input = ''): string {
  const ended = spawnSync(command, args, { encoding: 'utf8', input })
  if (ended.status !== 0)
    throw new Error(
      `${command} ${args.join(' ')} ended with ${ended.status}:\n${ended.stdout}${ended.stderr}`,
    )
  return ended.stdout
}
