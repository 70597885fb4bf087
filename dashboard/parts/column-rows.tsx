import { type ColumnEntry, type ColumnForm, cellsOf, withColumns } from '../column-form.ts'
import { Field } from './field.tsx'

/** Units a sketch most often prints, as they are written in a survey. */
const UNITS = ['pH', 'mV', 'V', 'lx', 'Cel', 'm/s', 'Hz', '%', '/', 'count', 'Ohm']

/** One line a column: is it read, as which channel, in which unit; with what stood there last. */
export function ColumnRows(props: {
  form: ColumnForm
  line: string | undefined
  wrong: ReadonlyMap<number, string>
  onForm: (form: ColumnForm) => void
}) {
  const { form, line, wrong, onForm } = props
  const cells = line === undefined ? [] : cellsOf(line, form.separator)
  const set = (place: number, part: Partial<ColumnEntry>) =>
    onForm({
      ...form,
      columns: form.columns.map((column, index) => (index === place ? { ...column, ...part } : column)),
    })
  const resize = (count: number) => onForm({ ...form, columns: withColumns(form.columns, count) })
  return (
    <>
      <ol class="column-rows">
        {form.columns.map((column, index) => (
          // a column is known by its place
          <li key={index}>
            <label class="column-use">
              <input
                type="checkbox"
                checked={column.isUsed}
                onChange={() => set(index, { isUsed: !column.isUsed })}
              />
              <span>
                Column {index + 1}
                {cells[index] !== undefined && <code> {cells[index].trim()}</code>}
              </span>
            </label>
            {column.isUsed ? (
              <>
                <Field
                  label="Channel"
                  width="9rem"
                  value={column.channel}
                  wrong={wrong.get(index)}
                  onValue={(channel) => set(index, { channel })}
                />
                <Field
                  label="Unit"
                  width="7rem"
                  value={column.unit}
                  suggestions={UNITS}
                  onValue={(unit) => set(index, { unit })}
                />
              </>
            ) : (
              <em>left aside</em>
            )}
          </li>
        ))}
      </ol>
      <p class="form-ways">
        <button type="button" class="plain" onClick={() => resize(form.columns.length + 1)}>
          One column more
        </button>
        <button
          type="button"
          class="plain"
          disabled={form.columns.length < 2}
          onClick={() => resize(form.columns.length - 1)}
        >
          One less
        </button>
      </p>
    </>
  )
}
