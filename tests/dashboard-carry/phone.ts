import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type BrowserContext, chromium, type Page } from 'playwright-core'

export interface Phone {
  context: BrowserContext
  page: Page
  /** errors of the page */
  complaints: string[]
  /** the test takes its network away now and then: what the browser says about that is no complaint */
  mayBeCutOff: boolean
  /** touches so far, by {@link touch} */
  touches: number
  /** a finger on the first thing that a selector finds, once it is there and can be pressed */
  touch(selector: string): Promise<void>
  close(): Promise<void>
}

/** what the browser says of a request whose bytes did not get through */
const LOST_NETWORK = /^Failed to load resource: net::ERR_/

/**
 * The system's Chromium as a phone of 360 × 740 with a touch screen.
 * @param aheadMs  by how much its clock is wrong
 */
export async function takePhone(aheadMs = 0): Promise<Phone> {
  const profile = mkdtempSync(join(tmpdir(), 'tussock-phone-'))
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: '/usr/bin/chromium',
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    isMobile: true,
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
  await context.addInitScript((ahead) => {
    const TrueDate = Date
    class WrongDate extends TrueDate {
      constructor(...parts: unknown[]) {
        if (parts.length === 0) super(TrueDate.now() + ahead)
        else super(...(parts as [number]))
      }
      static override now() {
        return TrueDate.now() + ahead
      }
    }
    globalThis.Date = WrongDate as DateConstructor
  }, aheadMs)
  const page = context.pages()[0] ?? (await context.newPage())
  const complaints: string[] = []
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`))
  page.on('console', (message) => {
    if (message.type() === 'error' && !(phone.mayBeCutOff && LOST_NETWORK.test(message.text())))
      complaints.push(`console: ${message.text()}`)
  })
  const phone: Phone = {
    context,
    page,
    complaints,
    mayBeCutOff: false,
    touches: 0,
    async touch(selector) {
      await page.locator(selector).first().tap({ timeout: 60_000 })
      phone.touches++
    },
    async close() {
      await context.close()
      rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 })
    },
  }
  return phone
}
