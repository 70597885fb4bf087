import { useEffect } from 'preact/hooks'

/** Once the page is drawn it is turned to the part that the address names, with the keyboard there as well. */
export function useHashTarget(): void {
  useEffect(() => {
    const turn = () => {
      const target = location.hash === '' ? null : document.getElementById(readHash())
      target?.scrollIntoView()
      target?.focus({ preventScroll: true })
    }
    // after the frame has put the keyboard at the page's beginning
    const timer = setTimeout(turn)
    addEventListener('hashchange', turn)
    return () => {
      clearTimeout(timer)
      removeEventListener('hashchange', turn)
    }
  }, [])
}

function readHash(): string {
  try {
    return decodeURIComponent(location.hash.slice(1))
  } catch {
    return location.hash.slice(1)
  }
}
