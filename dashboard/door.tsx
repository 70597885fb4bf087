import type { ComponentChildren, ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { connection } from './live.ts'
import { Waiting } from './pages/no-survey.tsx'

/**
 * A part of the notebook that is fetched when first asked for, so that the first page is light.
 * @param load  where its pages are
 * @param whenShut  what can be done all the same while they cannot be fetched
 */
export function doorTo<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
  whenShut?: () => ComponentChildren,
): ComponentType<Props> {
  let opened: ComponentType<Props> | null = null
  return function Door(props: Props) {
    const [, setOpened] = useState(opened !== null)
    const [isShut, setShut] = useState(false)
    const open = () => {
      setShut(false)
      load().then(
        (pages) => {
          opened = pages
          setOpened(true)
        },
        () => setShut(true),
      )
    }
    useEffect(() => {
      if (!opened) open()
    }, [])
    // the hub answers again
    useEffect(() => {
      if (isShut && connection.value === 'live') open()
    }, [connection.value])
    const Pages = opened
    if (Pages) return <Pages {...props} />
    if (!isShut) return <Waiting />
    return (
      <article class="plain-page">
        <h1>This page could not be fetched</h1>
        <p>The hub did not answer. Check that this device is on its Wi-Fi.</p>
        <p>
          <button type="button" onClick={open}>
            Try again
          </button>
        </p>
        {whenShut?.()}
      </article>
    )
  }
}
