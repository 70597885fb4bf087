import type { SpeciesFault, SpeciesRepair } from '../../../hub/contract/species.ts'

/** Every cell that was repaired or cannot be used, by its address, with the reason. */
export function DoubtfulCells(props: {
  repairs: readonly SpeciesRepair[]
  faults: readonly SpeciesFault[]
  notes: readonly string[]
}) {
  const { repairs, faults, notes } = props
  return (
    <>
      {faults.length > 0 && (
        <section class="study-block">
          <h2>Cells that cannot be used</h2>
          <p>Correct them in the spreadsheet and give the file again.</p>
          <ul class="study-lines">
            {faults.map(({ cell, written, message }) => (
              <li key={`${cell} ${message}`} data-fault={cell}>
                <span>
                  <b class="is-fault">✕ {cell}</b> {written !== '' && <q>{written}</q>} {message}
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {repairs.length > 0 && (
        <section class="study-block">
          <h2>Repaired while reading</h2>
          <ul class="study-lines">
            {repairs.map(({ cell, from, to, why }) => (
              <li key={`${cell} ${from}`} data-repair={cell}>
                <span>
                  <b class="is-repaired">✎ {cell}</b> <q>{from}</q> is read as <q>{to}</q>: {why}
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {notes.length > 0 && (
        <section class="study-block">
          <h2>Also to know</h2>
          <ul class="study-notes">
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
