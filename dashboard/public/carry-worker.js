/**
 * Opens the page where the hub is out of reach. Only the page itself is kept, never what the hub answers: what was
 * measured lies in the phone's own database.
 */
const SHELF = 'tussock page'
const PAGE = '/'

self.addEventListener('install', (event) => {
  event.waitUntil(keepPage().then(() => self.skipWaiting()))
})

self.addEventListener('activate', (event) => {
  event.waitUntil(self.clients.claim())
})

self.addEventListener('message', (event) => {
  const paths = event.data?.keep
  if (Array.isArray(paths)) event.waitUntil(keepAssets(paths))
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const address = new URL(request.url)
  if (request.method !== 'GET' || address.origin !== self.location.origin) return
  if (request.mode === 'navigate' && !address.pathname.startsWith('/api/'))
    event.respondWith(fromHubElseShelf(request))
  else if (address.pathname.startsWith('/assets/')) event.respondWith(fromShelfElseHub(request))
})

async function keepPage() {
  const shelf = await caches.open(SHELF)
  await shelf.add(new Request(PAGE, { cache: 'reload' }))
}

/** Names of assets change with their content, so what is no longer asked for is old. */
async function keepAssets(paths) {
  const shelf = await caches.open(SHELF)
  for (const path of paths) if (!(await shelf.match(path))) await shelf.add(path).catch(() => undefined)
}

async function fromHubElseShelf(request) {
  try {
    const answer = await fetch(request)
    if (answer.ok && answer.headers.get('content-type')?.startsWith('text/html'))
      await (await caches.open(SHELF)).put(PAGE, answer.clone())
    return answer
  } catch {
    return (await caches.match(PAGE)) ?? Response.error()
  }
}

async function fromShelfElseHub(request) {
  const kept = await caches.match(request)
  if (kept) return kept
  const answer = await fetch(request)
  if (answer.ok) await (await caches.open(SHELF)).put(request, answer.clone())
  return answer
}
