import { readFile } from 'node:fs/promises'
import { extname, join, normalize } from 'node:path'
import type { Context } from 'hono'
import { HubError } from '../errors.ts'
import { refuse } from './error-body.ts'

const CONTENT_TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.json': 'application/json',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
}

/** A file of the built page; any other address is the page itself, which knows its own places. */
export async function pageFile(c: Context, folder: string): Promise<Response> {
  const path = normalize(c.req.path).replace(/^(\.\.[/\\])+/, '')
  const type = CONTENT_TYPES[extname(path)]
  try {
    if (type === undefined || path.includes('..')) throw new Error('not a file')
    const file = await readFile(join(folder, path))
    const isHashed = path.startsWith('/assets/')
    c.header('content-type', type)
    c.header('cache-control', isHashed ? 'public, max-age=31536000, immutable' : 'no-cache')
    return c.body(new Uint8Array(file))
  } catch {
    if (type !== undefined && type !== CONTENT_TYPES['.html'])
      return refuse(c, new HubError('E_NOT_FOUND', `There is no file ${c.req.path}.`))
    const page = await readFile(join(folder, 'index.html'), 'utf8').catch(() => null)
    if (page === null) return c.text('The page has not been built: run npm run build.', 500)
    c.header('cache-control', 'no-cache')
    return c.html(page)
  }
}
