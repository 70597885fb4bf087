import { CabledBoard } from '../support/serial-bench.ts'

/**
 * A cable that nobody else reaches for. The system gives each new pseudo-terminal the lowest free name, which a hub whose
 * own board has just gone may be trying to open again: so the lowest names are taken, and left unused.
 */
export async function plugInApart(): Promise<CabledBoard> {
  for (let spare = 0; spare < 3; spare++) await CabledBoard.plugIn()
  return CabledBoard.plugIn()
}
