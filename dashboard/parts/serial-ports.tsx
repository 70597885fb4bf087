import { useEffect, useState } from 'preact/hooks'
import type { PortNow } from '../../hub/contract/status.ts'
import { client, messageOf, type PortFound } from '../client.ts'
import { ageText } from '../format-time.ts'
import { refreshAll } from '../notebook.ts'
import { Choice, Field } from './field.tsx'

const BAUDS = [9600, 19_200, 38_400, 57_600, 115_200, 230_400].map((baud) => ({
  value: String(baud),
  label: `${baud} baud`,
}))

/** The serial ports of the hub's computer: those open, those found, and one to be named by its path. */
export function SerialPorts(props: {
  ports: readonly PortNow[]
  nowMs: number
  onSaid: (said: string) => void
}) {
  const { ports, nowMs, onSaid } = props
  const [found, setFound] = useState<{ ports: PortFound[]; trouble: string | null } | null>(null)
  const [path, setPath] = useState('')
  const [baud, setBaud] = useState('115200')
  const look = () =>
    client
      .ports()
      .then(setFound)
      .catch((error: unknown) => setFound({ ports: [], trouble: messageOf(error) }))
  useEffect(() => void look(), [])
  const act = async (work: Promise<unknown>, said: string) => {
    try {
      await work
      onSaid(said)
      setPath('')
    } catch (error) {
      onSaid(messageOf(error))
    }
    refreshAll()
  }
  const open = (which: string) => void act(client.openPort(which, Number(baud)), `${which} is being opened.`)
  const shut = found?.ports.filter((port) => !ports.some((now) => now.path === port.path)) ?? []
  return (
    <section class="ports">
      <h2>Boards on a cable</h2>
      {ports.length > 0 && (
        <ul class="channel-lines">
          {ports.map((port) => (
            <li key={port.path} class="port-line">
              <span class="channel-name">{port.path}</span>
              <span>
                {port.state}, {port.baudRate} baud, heard {ageText(port.lastHeardMs, nowMs)}
                {port.trouble && <em class="tag-fail"> {port.trouble}</em>}
                {port.note && ` ${port.note}`}
              </span>
              <button
                type="button"
                class="plain"
                onClick={() => void act(client.closePort(port.path), `${port.path} is closed.`)}
              >
                Close
              </button>
            </li>
          ))}
        </ul>
      )}
      {found?.trouble && <p class="hint">{found.trouble}</p>}
      {shut.length > 0 && (
        <ul class="channel-lines">
          {shut.map((port) => (
            <li key={port.path} class="port-line">
              <span class="channel-name">{port.path}</span>
              <span>{[port.maker, port.serialNumber].filter(Boolean).join(', ') || 'found, not open'}</span>
              <button type="button" class="plain" onClick={() => open(port.path)}>
                Open
              </button>
            </li>
          ))}
        </ul>
      )}
      {found !== null && shut.length === 0 && ports.length === 0 && (
        <p>No serial port was found. Plug a board in and look again, or name the port.</p>
      )}
      <form
        class="fields"
        onSubmit={(event) => {
          event.preventDefault()
          if (path.trim() !== '') open(path.trim())
        }}
      >
        <Field
          label="Port"
          value={path}
          onValue={setPath}
          width="14rem"
          hint="such as COM4 or /dev/ttyUSB0"
        />
        <Choice label="Speed" value={baud} choices={BAUDS} onValue={setBaud} />
        <p class="form-ways">
          <button type="submit" disabled={path.trim() === ''}>
            Open this port
          </button>
          <button type="button" class="plain" onClick={() => void look()}>
            Look again
          </button>
        </p>
      </form>
    </section>
  )
}
