import { once } from 'node:events'
import { writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:net'
import { join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { startHub } from '../support/running-hub.ts'
import { readOnlyDisk, SmallDisk } from '../support/small-disk.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock } from '../support/tussock-command.ts'

const servers: Server[] = []
afterEach(() => {
  for (const server of servers.splice(0)) server.close()
})

/** A port that another program listens on. */
async function takenPort(): Promise<string> {
  const server = createServer().listen(0, '127.0.0.1')
  servers.push(server)
  await once(server, 'listening')
  return String((server.address() as { port: number }).port)
}

async function expectRefusal(args: readonly string[], code: string, remedy: RegExp): Promise<void> {
  const ended = await runTussock('start', ...args)
  expect(ended.stderr).toMatch(new RegExp(`^${code}: .+`))
  expect(ended.stderr).toMatch(remedy)
  // one line of words, no stack
  expect(ended.stderr.trimEnd().split('\n')).toHaveLength(1)
  expect(ended).toMatchObject({ code: 1, stdout: '' })
}

const anyPorts = ['--port', '0', '--mqtt-port', '0']

test('an MQTT port that is taken is refused by its number, with three ways out', async () => {
  const port = await takenPort()
  const args = ['--data', temporaryFolder(), '--port', '0', '--mqtt-port', port]
  await expectRefusal(
    args,
    'E_BROKER_PORT',
    new RegExp(`${port}.*Stop the other broker.*--mqtt-port.*--broker`),
  )
})

test('a page port that is taken is refused by its number, with a way out', async () => {
  const port = await takenPort()
  const args = ['--data', temporaryFolder(), '--port', port, '--mqtt-port', '0']
  await expectRefusal(args, 'E_HTTP_PORT', new RegExp(`${port}.*choose another --port`))
})

test('a data folder that another hub has open is refused, and is free again when that hub ends or is killed', async () => {
  const hub = await startHub()
  const args = ['--data', hub.dataFolder, ...anyPorts]
  await expectRefusal(args, 'E_DATA_LOCKED', /Another hub .*stop it, or choose another --data/)
  // the hub that has it is none the worse
  expect((await hub.now()).trouble).toBeNull()
  await hub.kill()
  const next = await startHub({ dataFolder: hub.dataFolder })
  await next.stop()
  await startHub({ dataFolder: hub.dataFolder })
})

test('a data folder that cannot be written is refused with the folder and a way out', async () => {
  const file = join(temporaryFolder(), 'a-file')
  writeFileSync(file, '')
  for (const folder of [join(file, 'data'), file, readOnlyDisk(), join(readOnlyDisk(), 'data'), '/proc/data'])
    await expectRefusal(
      ['--data', folder, ...anyPorts],
      'E_DATA_READ_ONLY',
      /Choose a folder that may be written/,
    )
})

test('a data folder on a disk that is full is refused as that', async () => {
  const disk = new SmallDisk(1_000_000)
  disk.fill()
  const args = ['--data', join(disk.folder, 'data'), ...anyPorts]
  await expectRefusal(args, 'E_DISK', /Free some space/)
})

test('a folder that holds a database of something else, or no database, is refused and left as it is', async () => {
  const folder = temporaryFolder()
  writeFileSync(join(folder, 'readings.sqlite'), 'Dear diary, '.repeat(1000))
  await expectRefusal(['--data', folder, ...anyPorts], 'E_DATA_NOT_OURS', /Choose another --data folder/)
})

test('options that make no sense end with 2 and the option’s name', async () => {
  for (const [args, named] of [
    [['--prot', '80'], '--prot'],
    [['--port', '70000'], '70000'],
    [['--broker', 'http://x'], 'http://x'],
    [['--serial', '/dev/ttyUSB0@fast@9'], 'baud rate'],
    [['--speed', '5'], '--rehearsal'],
  ] as const) {
    const ended = await runTussock('start', ...args, '--data', temporaryFolder())
    expect(ended.code, args.join(' ')).toBe(2)
    expect(ended.stderr).toMatch(/^E_COMMAND: /)
    expect(ended.stderr).toContain(named)
  }
})
