import type { CompletenessCell } from '../../../hub/contract/field.ts'

/** `12 of 40 cells are complete, 3 partly; 25 are missing.` Cells that are not wanted do not count. */
export function summaryOfCells(cells: readonly CompletenessCell[]): string {
  const wanted = cells.filter(({ state }) => state !== 'not wanted')
  const count = (state: CompletenessCell['state']) => wanted.filter((cell) => cell.state === state).length
  const rest = [
    count('partly') > 0 ? `${count('partly')} partly` : '',
    count('missing') > 0 ? `${count('missing')} missing` : '',
  ].filter((text) => text !== '')
  const lead = `${count('complete')} of ${wanted.length} ${wanted.length === 1 ? 'cell is' : 'cells are'} complete`
  return rest.length === 0 ? `${lead}.` : `${lead}; ${rest.join(', ')}.`
}

/** `3/3` for spot readings, `97 %` for a probe that logs; `–` where nothing is wanted. */
export function shortCell(cell: CompletenessCell): string {
  if (cell.state === 'not wanted') return '–'
  if (cell.by === 'carried' || cell.standing.length === 0) return `${cell.got}/${cell.needed}`
  const known = cell.standing.flatMap(({ completeness }) => completeness ?? [])
  if (known.length === 0) return cell.got > 0 ? 'logged' : '0'
  return percentText(Math.min(...known))
}

/** Rounded down: 99.9 % is not all of it. */
export function percentText(share: number): string {
  const percent = share * 100
  return percent >= 10 || percent === 0 ? `${Math.floor(percent)} %` : `${Math.floor(percent * 10) / 10} %`
}

/** Everything a cell stands on, in words. */
export function cellSentence(cell: CompletenessCell): string {
  const facts = [
    ...cell.missing.map(({ words }) => words),
    ...cell.remarks,
    cell.isSteady === false ? 'not settled' : '',
    cell.isCalibrated === false ? 'calibration wanting' : '',
    cell.isClockKnown === false ? 'clock not to be trusted' : '',
  ].filter((text) => text !== '')
  return facts.length === 0 ? (cell.state === 'complete' ? 'nothing missing' : '') : facts.join('; ')
}
