import { createInterface } from 'node:readline/promises'
import { Writable } from 'node:stream'
import { readAccess, writeAccess } from '../access/access-file.ts'
import { keepSecret } from '../access/passphrase.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { type Command, printLine, readOptions } from './command.ts'

const LEAST_LETTERS = 8
const LEAST_CODE = 4

export const passphrase: Command = {
  name: 'passphrase',
  summary: 'Set the teacher’s passphrase, or a class code, for a hub that phones can reach',
  usage: `tussock passphrase [options]

  --class-code   set the code that the class enters to look on, instead of the passphrase
  --none         remove the class code: whoever is on the network may look on
  --data FOLDER  where readings are kept

It is asked for and not shown while typed; or give it on standard input. Only a hash of it (scrypt) is kept. Start the
hub again afterwards.`,

  async run(args) {
    const { values } = readOptions(args, {
      'class-code': { type: 'boolean', default: false },
      none: { type: 'boolean', default: false },
      data: { type: 'string' },
    })
    const folder = values.data ?? defaultDataFolder()
    const secrets = readAccess(folder)
    if (values.none) {
      if (!values['class-code'])
        throw new HubError('E_COMMAND', '--none is for --class-code: a hub on a network has a passphrase.')
      writeAccess(folder, { ...secrets, classCode: null })
      printLine('There is no class code any more.')
      return 0
    }
    const what = values['class-code'] ? 'class code' : 'teacher’s passphrase'
    const secret = await ask(`New ${what}: `)
    const least = values['class-code'] ? LEAST_CODE : LEAST_LETTERS
    if (secret.length < least)
      throw new HubError('E_COMMAND', `The ${what} should have at least ${least} letters.`)
    const kept = await keepSecret(secret)
    writeAccess(
      folder,
      values['class-code'] ? { ...secrets, classCode: kept } : { ...secrets, teacher: kept },
    )
    printLine(`The ${what} is set. Start the hub again to use it.`)
    return 0
  },
}

async function ask(question: string): Promise<string> {
  if (!process.stdin.isTTY) {
    let text = ''
    for await (const chunk of process.stdin) text += chunk
    return text.trim()
  }
  process.stdout.write(question)
  const silent = new Writable({ write: (_chunk, _encoding, done) => done() })
  const lines = createInterface({ input: process.stdin, output: silent, terminal: true })
  const secret = await lines.question('')
  lines.close()
  printLine('')
  return secret.trim()
}
