import { useEffect, useState } from 'preact/hooks'

/** Does what was asked for as soon as the drawing has caught up with what is typed. */
export function useWhenDrawn(isBusy: boolean, work: () => void): () => void {
  const [isAsked, setAsked] = useState(false)
  useEffect(() => {
    if (!isAsked || isBusy) return
    setAsked(false)
    work()
  }, [isAsked, isBusy])
  return () => setAsked(true)
}
