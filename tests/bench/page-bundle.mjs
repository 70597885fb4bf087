import { readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'

const built = new URL('../../.build/page/', import.meta.url)

/** What the first view needs before it is drawn, as the page itself names it: kB, gzipped. */
export function firstViewKilobytes() {
  const page = readFileSync(new URL('index.html', built), 'utf8')
  const files = [...page.matchAll(/(?:src|href)="\/(assets\/[^"]+)"/g)].map(([, path]) => path)
  const sizes = files.map((path) => gzipSync(readFileSync(new URL(path, built))).length)
  return sizes.reduce((sum, size) => sum + size, gzipSync(page).length) / 1000
}
