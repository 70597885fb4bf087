import type { ChildProcess } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { endProgram, startProgram } from './needed-program.ts'
import { temporaryFolder } from './temporary-folder.ts'

/** A port nobody listens on at this moment. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer()
    server.once('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      const port = typeof address === 'object' && address ? address.port : 0
      server.close(() => resolve(port))
    })
  })
}

/** A broker of another maker, on a port of its own, that keeps its sessions on disk. */
export class RealBroker {
  readonly port: number
  readonly #settingFile: string
  #child: ChildProcess | null = null

  static async start(): Promise<RealBroker> {
    const broker = new RealBroker(await freePort())
    await broker.start()
    return broker
  }

  private constructor(port: number) {
    this.port = port
    const folder = temporaryFolder()
    this.#settingFile = join(folder, 'broker.conf')
    writeFileSync(
      this.#settingFile,
      [
        `listener ${port} 127.0.0.1`,
        'allow_anonymous true',
        'log_dest stderr',
        'persistence true',
        `persistence_location ${folder}/`,
        ...(process.getuid?.() === 0 ? ['user root'] : []),
        '',
      ].join('\n'),
    )
  }

  get url(): string {
    return `mqtt://127.0.0.1:${this.port}`
  }

  /** Starts it again on the same port, with what it had on disk. */
  async start(): Promise<void> {
    const child = startProgram('mosquitto', ['-c', this.#settingFile])
    this.#child = child
    let said = ''
    await new Promise<void>((resolve, reject) => {
      child.stderr?.setEncoding('utf8').on('data', (text: string) => {
        said += text
        if (/mosquitto version \S+ running/.test(said)) resolve()
      })
      child.once('close', (code) => reject(new Error(`the broker ended with ${code}: ${said}`)))
    })
  }

  /** Ends it in order, as when its machine is switched off: it writes its sessions to disk. */
  async stop(): Promise<void> {
    if (this.#child) await endProgram(this.#child, 'SIGTERM')
  }

  /** Ends it as a power cut does: it has forgotten its sessions when it comes back. */
  async kill(): Promise<void> {
    if (this.#child) await endProgram(this.#child)
  }
}
