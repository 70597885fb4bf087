import type { StudyTable } from '../../../hub/contract/study.ts'
import { countText } from '../../format.ts'
import { ScrollBox } from '../scroll-box.tsx'
import { joinedCellText } from './cell-text.ts'

const ROWS_AT_MOST = 120

/** A table as it will be downloaded; its numbers are rounded on the page only. */
export function JoinedTable({ table, name }: { table: StudyTable; name: string }) {
  const hidden = table.rows.length - ROWS_AT_MOST
  return (
    <>
      <ScrollBox name={name}>
        <table class="study-table joined" data-rows={table.rows.length}>
          <thead>
            <tr>
              {table.headings.map((heading) => (
                <th key={heading} scope="col">
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.slice(0, ROWS_AT_MOST).map((row, place) => (
              <tr key={place}>
                {row.map((cell, column) =>
                  column === 0 ? (
                    <th key={table.headings[column]} scope="row">
                      {joinedCellText(cell)}
                    </th>
                  ) : (
                    <td key={table.headings[column]} class={cell === null ? 'is-gap' : ''}>
                      {cell === null ? '·' : joinedCellText(cell)}
                    </td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {hidden > 0 && <p>{countText(hidden, 'more row')} in the download.</p>}
    </>
  )
}
