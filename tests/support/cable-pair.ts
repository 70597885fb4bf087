import { join } from 'node:path'
import { startProgram } from './needed-program.ts'
import { temporaryFolder } from './temporary-folder.ts'

export interface CablePair {
  /** what a board's script writes to */
  boardEnd: string
  /** what the hub opens as its serial port */
  hubEnd: string
}

/** Two pseudo-terminals joined by a program that belongs to nobody here, as a null-modem cable joins two ports. */
export async function joinCable(): Promise<CablePair> {
  const folder = temporaryFolder()
  const boardEnd = join(folder, 'board')
  const hubEnd = join(folder, 'hub')
  const ends = [boardEnd, hubEnd].map((path) => `pty,raw,echo=0,link=${path}`)
  const cable = startProgram('socat', ['-d', '-d', ...ends])
  let said = ''
  await new Promise<void>((resolve, reject) => {
    cable.stderr?.setEncoding('utf8').on('data', (text: string) => {
      said += text
      if (said.includes('starting data transfer loop')) resolve()
    })
    cable.once('close', (code) => reject(new Error(`socat ended with ${code}: ${said}`)))
  })
  return { boardEnd, hubEnd }
}
