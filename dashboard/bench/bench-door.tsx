import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { Waiting } from '../pages/no-survey.tsx'
import type { BenchPlace } from './places.ts'

type Pages = ComponentType<{ here: BenchPlace }>
let opened: Pages | null = null

/** The bench and its mathematics are fetched when first asked for: a phone in the field does without them. */
export function BenchDoor({ here }: { here: BenchPlace }) {
  const [, setOpen] = useState(opened !== null)
  const [isShut, setShut] = useState(false)
  const open = () => {
    setShut(false)
    import('./bench-pages.tsx')
      .then(({ BenchPages }) => {
        opened = BenchPages
        setOpen(true)
      })
      .catch(() => setShut(true))
  }
  useEffect(() => {
    if (!opened) open()
  }, [])
  if (opened) {
    const Opened = opened
    return <Opened here={here} />
  }
  if (!isShut) return <Waiting />
  return (
    <article class="plain-page">
      <h1>The bench could not be fetched</h1>
      <p>The hub did not answer. Check that this device is on its Wi-Fi.</p>
      <p>
        <button type="button" onClick={open}>
          Try again
        </button>
      </p>
    </article>
  )
}
