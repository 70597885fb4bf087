import { spawnSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { neededProgram } from '../../support/needed-program.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { runTussock } from '../../support/tussock-command.ts'

/** What systemd's own checker says against a unit file; it also looks whether the programs named in it are there. */
function faultsOf(unit: string): string {
  const file = join(temporaryFolder(), 'tussock.service')
  writeFileSync(file, unit)
  const { stderr } = spawnSync(neededProgram('systemd-analyze'), ['verify', file], { encoding: 'utf8' })
  return stderr
    .split('\n')
    .filter((line) => line.includes('tussock.service'))
    .join('\n')
}

test('systemd finds nothing wrong with the unit, whatever is in the names of folders', async () => {
  const { stdout, code } = await runTussock(
    ...['service', '--user', 'root', '--data', '/srv/a b$c%d"e'],
    ...['--', '--serial', '/dev/ttyUSB0', '--backup-to', '/media/my stick'],
  )
  expect(code).toBe(0)
  expect(faultsOf(stdout)).toBe('')
  expect(stdout).toContain(
    'start --data "/srv/a b$$c%%d\\"e" --serial /dev/ttyUSB0 --backup-to "/media/my stick"',
  )
  // and it would have found something
  expect(faultsOf(stdout.replace('KillSignal', 'KilSignal'))).toContain('KilSignal')
  expect(faultsOf(stdout.replace('tussock.js', 'tussock.js\nExecStop=/no/such/program'))).not.toBe('')
})

test.each([
  [['--user', 'a b'], 'is not the name of a user'],
  [['--serial', '/dev/ttyUSB0'], 'serial'],
  [['surplus'], 'after “--”'],
  [['--', '--data', '/srv'], 'before the “--”'],
])('%j is refused', async (args, said) => {
  const { code, stderr } = await runTussock('service', ...args)
  expect(code).toBe(2)
  expect(stderr).toContain(said)
})
