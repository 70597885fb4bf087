import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { errorCatalogue } from '../../hub/errors.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

function textOf(folder: string, except: string): string {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith(except))
    .map((path) => readFileSync(join(root, folder, path), 'utf8'))
    .join('\n')
}

const hub = textOf('hub', 'errors.ts')
const tests = textOf('tests', 'errors.test.ts')

describe('the catalogue of refusals', () => {
  test.each(Object.entries(errorCatalogue))(
    '%s is raised by the hub, tested, and says what to do',
    (code, { status, remedy }) => {
      expect(hub.includes(`'${code}'`)).toBe(true)
      expect(tests.includes(code)).toBe(true)
      expect(status).toBeGreaterThanOrEqual(400)
      expect(remedy).toMatch(/^[A-Z].*\.$/)
    },
  )
  test('no code is used that the catalogue does not have', () => {
    const used = new Set([...hub.matchAll(/HubError\(\s*'(E_[A-Z_]+)'/g)].map(([, code]) => code!))
    expect([...used].filter((code) => !(code in errorCatalogue))).toEqual([])
  })
})
