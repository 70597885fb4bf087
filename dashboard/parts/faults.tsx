import type { Fault } from '../client.ts'

/** What the hub refused, and where in the file each fault is. */
export function Faults({ said, faults }: { said: string; faults: Fault[] }) {
  return (
    <div class="faults" role="alert">
      <p>{said}</p>
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
