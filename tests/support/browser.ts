import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type BrowserContext, chromium, type Page } from 'playwright-core'

const CHROMIUM = '/usr/bin/chromium'

export interface Visit {
  page: Page
  /** what the page complained of: errors, and requests to any host but the hub's */
  complaints: string[]
  close(): Promise<void>
}

/** Opens the system's Chromium on a page of the hub, as a person would, and notes everything that goes wrong there. */
export async function visit(url: string, options: { width?: number; height?: number } = {}): Promise<Visit> {
  if (!existsSync(CHROMIUM)) throw new Error('These tests need Chromium: apt install chromium')
  const profile = mkdtempSync(join(tmpdir(), 'tussock-chromium-'))
  const context: BrowserContext = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    viewport: { width: options.width ?? 1280, height: options.height ?? 900 },
    acceptDownloads: true,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
  const page = context.pages()[0] ?? (await context.newPage())
  const complaints: string[] = []
  const host = new URL(url).host
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`))
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`console: ${message.text()}`)
  })
  page.on('request', (request) => {
    const to = new URL(request.url())
    if (to.protocol.startsWith('http') && to.host !== host) complaints.push(`request to ${to.host}`)
  })
  await page.goto(url)
  return {
    page,
    complaints,
    async close() {
      await context.close()
      rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 })
    },
  }
}
