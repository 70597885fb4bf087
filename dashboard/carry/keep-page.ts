/** Where the page may be opened without a network: only over HTTPS, or on the hub itself. */
export function mayOpenWithoutNetwork(): boolean {
  return window.isSecureContext && 'serviceWorker' in navigator
}

let isAsked = false

/** Asks the browser to keep the page, so that it opens out of reach of the hub. Over plain HTTP it cannot. */
export function keepPageForLater(): void {
  if (isAsked || !mayOpenWithoutNetwork()) return
  isAsked = true
  navigator.serviceWorker
    .register('/carry-worker.js')
    .then(() => navigator.serviceWorker.ready)
    .then(({ active }) => active?.postMessage({ keep: fetchedSoFar() }))
    .catch(() => undefined)
}

/** The page’s own files: those fetched before the worker was there would be missing from its shelf. */
function fetchedSoFar(): string[] {
  const names = performance.getEntriesByType('resource').map(({ name }) => new URL(name))
  return names
    .filter(({ origin, pathname }) => origin === location.origin && pathname.startsWith('/assets/'))
    .map(({ pathname }) => pathname)
}
