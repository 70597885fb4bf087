import { countText } from '../../format.ts'
import { ScrollBox } from '../scroll-box.tsx'
import { columnLetters } from './cell-address.ts'
import type { CellStanding, PreviewCell, SheetPreview } from './sheet-preview.ts'

const signs: Readonly<Record<CellStanding, string>> = {
  label: '',
  read: '',
  repaired: '✎',
  fault: '✕',
  blank: '?',
}

/** The sheet as it was read, with the letters and numbers of the spreadsheet around it. */
export function PreviewTable({ preview }: { preview: SheetPreview }) {
  return (
    <>
      <p class="preview-key">
        <span class="is-repaired">✎ repaired</span> <span class="is-fault">✕ cannot be used</span>{' '}
        <span>? blank</span> — a gap is a cell that was left aside
      </p>
      <ScrollBox name="The sheet as it was read">
        <table class="preview">
          <thead>
            <tr>
              <td />
              {preview.columns.map((column) => (
                <th key={column} scope="col">
                  {columnLetters(column)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {preview.rows.map(({ number, cells }) => (
              <tr key={number}>
                <th scope="row">{number}</th>
                {cells.map((cell, place) => (
                  <PreviewTableCell key={preview.columns[place]} cell={cell} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {preview.hiddenRows > 0 && <p>{countText(preview.hiddenRows, 'more row')} below.</p>}
    </>
  )
}

function PreviewTableCell({ cell }: { cell: PreviewCell | null }) {
  if (!cell) return <td class="is-aside" />
  const sign = signs[cell.standing]
  return (
    <td class={`is-${cell.standing}`} {...(cell.note ? { title: cell.note } : {})}>
      {sign && (
        <span class="preview-sign" aria-hidden="true">
          {sign}
        </span>
      )}
      {cell.text}
      {cell.note && cell.standing !== 'read' && <span class="unseen">, {cell.note}</span>}
    </td>
  )
}
