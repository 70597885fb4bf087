import { useId, useState } from 'preact/hooks'

/** Cells copied from a spreadsheet, pasted as text. */
export function PasteBox(props: { isBusy: boolean; onPaste: (text: string) => Promise<void> }) {
  const id = useId()
  const [text, setText] = useState('')
  return (
    <details class="study-fold">
      <summary>Paste a table from a spreadsheet</summary>
      <label for={id}>Copy the cells there, headings too, and paste them here</label>
      <textarea
        id={id}
        class="paste-text"
        rows={6}
        spellcheck={false}
        value={text}
        onInput={(event) => setText(event.currentTarget.value)}
      />
      <p class="form-ways">
        <button
          type="button"
          disabled={props.isBusy || text.trim() === ''}
          onClick={() => void props.onPaste(text).then(() => setText(''))}
        >
          Read this table
        </button>
      </p>
    </details>
  )
}
