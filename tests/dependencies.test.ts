import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const root = new URL('../', import.meta.url)
const readJson = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, root), 'utf8')) as T

interface Locked {
  dev?: boolean
  devOptional?: boolean
  optional?: boolean
  hasInstallScript?: boolean
  integrity?: string
  resolved?: string
}
const packages = Object.entries(readJson<{ packages: Record<string, Locked> }>('package-lock.json').packages)
  .filter(([path]) => path !== '')
  .map(([path, locked]) => ({ path, name: path.replace(/^.*node_modules\//, ''), ...locked }))

/** Licences, by their SPDX names, that ask for no more than their notice to be kept. */
const PERMISSIVE = new Set(
  '0BSD Apache-2.0 BlueOak-1.0.0 BSD-2-Clause BSD-3-Clause CC0-1.0 ISC MIT Python-2.0 Unlicense Zlib'.split(
    ' ',
  ),
)
/** Packages whose `package.json` names no licence, and what their LICENSE file says. */
const BY_ITS_FILE: Record<string, string> = { 'png-js': 'MIT License' }

/** Whether an SPDX expression can be kept to with permissive licences alone. */
function isPermissive(expression: string): boolean {
  return expression
    .replace(/[()]/g, '')
    .split(/\s+OR\s+/)
    .some((choice) => choice.split(/\s+AND\s+/).every((name) => PERMISSIVE.has(name)))
}

describe('what a class installs', () => {
  test('has permissive licences throughout', () => {
    const others: string[] = []
    for (const { path, name, dev, devOptional, optional } of packages) {
      if (dev || devOptional) continue
      const folder = new URL(`${path}/`, root)
      // of a part for another system there is nothing to read here
      if (optional && !existsSync(folder)) continue
      const { license } = readJson<{ license?: unknown }>(`${path}/package.json`)
      if (typeof license === 'string' ? isPermissive(license) : saysInFile(folder, BY_ITS_FILE[name]))
        continue
      others.push(`${name}: ${JSON.stringify(license)}`)
    }
    expect(others).toEqual([])
    expect(packages.filter(({ dev }) => !dev).length).toBeGreaterThan(100)
  })

  test('runs only the two install scripts that fetch or build native parts', () => {
    const { allowScripts } = readJson<{ allowScripts: Record<string, boolean> }>('package.json')
    const withScript = packages.filter(({ hasInstallScript }) => hasInstallScript).map(({ name }) => name)
    expect(withScript.sort()).toEqual(['@serialport/bindings-cpp', 'better-sqlite3'])
    expect(Object.keys(allowScripts).sort()).toEqual(withScript)
  })

  test('is pinned to its bytes, and says nothing of where they were fetched', () => {
    expect(
      packages.filter(({ integrity }) => !integrity?.startsWith('sha512-')).map(({ name }) => name),
    ).toEqual([])
    expect(packages.filter(({ resolved }) => resolved !== undefined).map(({ name }) => name)).toEqual([])
  })

  test('an expression is judged by its parts', () => {
    expect(['MIT', '(MIT OR WTFPL)', '(MIT AND Zlib)', 'GPL-3.0 OR ISC'].every(isPermissive)).toBe(true)
    expect(['GPL-3.0', 'MIT AND GPL-3.0', 'UNLICENSED', 'SEE LICENSE IN x', ''].some(isPermissive)).toBe(
      false,
    )
  })
})

function saysInFile(folder: URL, words: string | undefined): boolean {
  return words !== undefined && readFileSync(new URL('LICENSE', folder), 'utf8').startsWith(words)
}
