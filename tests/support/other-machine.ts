import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, openSync, readFileSync, renameSync, writeFileSync, writeSync } from 'node:fs'
import { constants } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { neededProgram } from './needed-program.ts'
import { temporaryFolder } from './temporary-folder.ts'

const source = fileURLToPath(new URL('machine-shim.c', import.meta.url))
const built = fileURLToPath(new URL('../../.build/machine-shim', import.meta.url))

/**
 * The machine as a hub sees it, for faults that a real one cannot be made to have: see `machine-shim.c`. A hub lives on
 * it when it is started with this environment.
 */
export class OtherMachine {
  readonly env: NodeJS.ProcessEnv
  /** where changes of the folder are noted, if they are */
  readonly log: string
  readonly #control: number

  /** @param folder  whose files are watched, and refused to be written when asked for */
  constructor(folder: string, { isNoting = false } = {}) {
    const own = temporaryFolder()
    const control = join(own, 'control')
    this.log = join(own, 'log')
    writeFileSync(control, Buffer.alloc(16))
    this.#control = openSync(control, 'r+')
    this.env = {
      LD_PRELOAD: buildShim(),
      SHIM_FOLDER: folder,
      SHIM_CONTROL: control,
      ...(isNoting ? { SHIM_LOG: this.log } : {}),
    }
  }

  /** Sets the date ahead of what it truly is (negative: behind), while the hub runs or before. */
  setClockAhead(ms: number): void {
    const bytes = Buffer.alloc(8)
    bytes.writeBigInt64LE(BigInt(ms) * 1_000_000n)
    writeSync(this.#control, bytes, 0, 8, 0)
  }

  /** From now on the folder cannot be written, for this reason; null: it can be again. */
  refuseWriting(reason: 'EROFS' | 'EIO' | 'ENOSPC' | null): void {
    const bytes = Buffer.alloc(4)
    bytes.writeInt32LE(reason === null ? 0 : constants.errno[reason])
    writeSync(this.#control, bytes, 0, 4, 8)
  }
}

/** Compiles the shim, once for each form of its source. */
function buildShim(): string {
  const hash = createHash('sha256').update(readFileSync(source)).digest('hex').slice(0, 12)
  const library = join(built, `${hash}.so`)
  if (existsSync(library)) return library
  mkdirSync(built, { recursive: true })
  const fresh = `${library}.${process.pid}`
  const args = ['-shared', '-fPIC', '-O2', '-o', fresh, source, '-ldl']
  const made = spawnSync(neededProgram('gcc'), args, { encoding: 'utf8' })
  if (made.status !== 0) throw new Error(`The machine shim does not compile: ${made.stderr}`)
  renameSync(fresh, library)
  return library
}
