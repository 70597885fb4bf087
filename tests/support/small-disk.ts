import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach } from 'vitest'
import { runProgram } from './needed-program.ts'

const mounted: string[] = []

afterEach(() => {
  for (const folder of mounted.splice(0)) {
    runProgram('umount', ['--lazy', folder])
    rmSync(folder, { recursive: true, force: true })
  }
})

function mount(options: string): string {
  if (process.getuid?.() !== 0)
    throw new Error(
      'A disk of its own needs root: run the tests by unshare --map-root-user --mount, or as root',
    )
  const folder = mkdtempSync(join(tmpdir(), 'tussock-disk-'))
  runProgram('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', folder])
  mounted.push(folder)
  return folder
}

/** A disk that cannot be written, not even by root. */
export function readOnlyDisk(): string {
  return mount('ro,size=1m')
}

/** A small disk that can be filled up and given space again. */
export class SmallDisk {
  readonly folder: string
  readonly #ballast: string

  constructor(sizeBytes: number) {
    this.folder = mount(`size=${sizeBytes}`)
    this.#ballast = join(this.folder, 'ballast')
  }

  /** Writes until the disk takes nothing more. */
  fill(): void {
    const file = openSync(this.#ballast, 'a')
    try {
      for (const size of [65_536, 4096, 1]) {
        const bytes = Buffer.alloc(size)
        try {
          for (;;) writeSync(file, bytes)
        } catch (error) {
          if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error
        }
      }
      fsyncSync(file)
    } finally {
      closeSync(file)
    }
  }

  free(): void {
    rmSync(this.#ballast, { force: true })
  }
}
