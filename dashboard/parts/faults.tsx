import type { Fault } from '../client.ts'
import { countText } from '../format.ts'

/** What the hub refused; when it names places, the list of them stands for its sentence, which repeats them. */
export function Faults({ said, faults }: { said: string; faults: Fault[] }) {
  return (
    <div class="faults" role="alert">
      <p>
        {faults.length > 0 ? `${countText(faults.length, 'place')} to correct; nothing was changed.` : said}
      </p>
      {faults.length > 0 && (
        <ul>
          {faults.map(({ path, message }) => (
            <li key={`${path} ${message}`}>
              <code>{path || 'file'}</code> {message}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
