import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { withTrailer } from '../../hub/wire/checksum.ts'
import { startHub } from '../support/running-hub.ts'
import { runInMicroPython, runOnThisComputer } from './build-firmware.ts'
import { plugInApart } from './own-cable.ts'

const notes = fileURLToPath(new URL('../../firmware-notes', import.meta.url))
const protocol = readFileSync(join(notes, 'PROTOCOL.md'), 'utf8')

/** The cells of each row of a page's tables. */
function rowsOf(page: string): string[][] {
  return page
    .split('\n')
    .filter((line) => line.startsWith('|'))
    .map((line) =>
      line
        .slice(1, line.lastIndexOf('|'))
        .split(' | ')
        .map((cell) => cell.trim()),
    )
}

/** What stands below this heading: the first cell without its quotation marks, and the second. */
function vectors(...heading: [string, string]): [string, string][] {
  const rows = rowsOf(protocol)
  const from = rows.findIndex(([first, second]) => first === heading[0] && second === heading[1])
  const below = rows.slice(from + 2)
  const end = below.findIndex(([first]) => !first!.startsWith('`'))
  return below.slice(0, end === -1 ? undefined : end).map(([first, second]) => [first!.slice(1, -1), second!])
}

test('the checksums that the protocol page gives are the hub’s', () => {
  const rows = vectors('text', 'trailer')
  expect(rows.length).toBeGreaterThan(2)
  for (const [text, trailer] of rows) expect(`\`${withTrailer(text).slice(text.length)}\``).toBe(trailer)
})

test('the hub does with each line what the protocol page says', async () => {
  const rows = vectors('line', 'outcome')
  expect(rows.length).toBeGreaterThan(10)
  const board = await plugInApart()
  const hub = await startHub({ args: ['--serial', board.path] })
  await board.hears('who')
  const expected = { messages: 0, repeats: 0, quarantined: 0 }
  const answers: string[] = []
  for (const [line, outcome] of rows) {
    const [, code] = /^quarantine `(E_[A-Z_]+)`$/.exec(outcome) ?? []
    if (code) expected.quarantined++
    else if (outcome.startsWith('a repeat')) expected.repeats++
    else expected.messages++
    answers.push(...(/answered `(.+)`/.exec(outcome)?.slice(1) ?? []))
    board.say(`${line}\r\n`)
    const all = expected.messages + expected.repeats + expected.quarantined
    const { tallies } = await hub.until(
      () => hub.now(),
      ({ tallies: { messages, repeats, quarantined } }) => messages + repeats + quarantined === all,
    )
    expect(tallies, line).toMatchObject(expected)
    if (code) expect((await hub.quarantined())[0]!.code, line).toBe(code)
  }
  // what is answered last comes last
  board.say(`${withTrailer('[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":43}]')}\n`)
  await board.hears('kept 7 43')
  expect(board.heard.filter((said) => said.startsWith('kept'))).toEqual([...answers, 'kept 7 43'])
})

test('both boards understand of each request what the protocol page says', () => {
  const rows = vectors('line', 'understood')
  expect(rows.length).toBeGreaterThan(10)
  const lines = `${rows.map(([line]) => line).join('\n')}\n`
  const understood = rows.map(([, meaning]) => meaning)
  expect(runOnThisComputer('understand.cpp', ['request.cpp'], lines).trimEnd().split('\n')).toEqual(
    understood,
  )
  // `kept` is for serial boards
  const onMqtt = understood.map((meaning) => (meaning.startsWith('kept') ? 'nothing' : meaning))
  expect(runInMicroPython('understand.py', lines).trimEnd().split('\n')).toEqual(onMqtt)
})

test('what the notes point to is there', () => {
  for (const page of ['README.md', 'PROTOCOL.md', 'wiring/README.md']) {
    const text = readFileSync(join(notes, page), 'utf8')
    for (const [, target] of text.matchAll(/\]\((?!https?:)([^)#]+)\)/g))
      expect(existsSync(join(notes, dirname(page), target!)), `${page}: ${target}`).toBe(true)
  }
})

test('the wiring notes name the pins that the firmware uses', () => {
  const pins = rowsOf(readFileSync(join(notes, 'wiring/README.md'), 'utf8'))
  const serial = readFileSync(join(notes, 'serial-board/settings.h'), 'utf8')
  const wifi = readFileSync(join(notes, 'wifi-board/settings.py'), 'utf8')
  const row = (probe: string) => pins.find(([first]) => first === probe)?.slice(1)
  const defined = (name: string) => new RegExp(`#define ${name} (\\w+)`).exec(serial)![1]
  const set = (name: string) => new RegExp(`^${name} = (\\w+)`, 'm').exec(wifi)![1]
  expect(row('pH amplifier')).toEqual([`A${defined('PH_INPUT')}`, set('PH_PIN')])
  expect(row('moisture probe')).toEqual([`A${defined('MOISTURE_INPUT')}`, set('MOISTURE_PIN')])
  expect(row('thermistor')).toEqual([`A${defined('THERMISTOR_INPUT')}`, '32'])
  expect(row('1-Wire thermometer')).toEqual([`D${defined('THERMOMETER_BIT')}`, set('THERMOMETER_PIN')])
  expect(row('cup anemometer')).toEqual([`D${defined('CUPS_PIN')}`, set('CUPS_PIN')])
  expect(row('light sensor, SDA')).toEqual(['A4', set('SDA_PIN')])
  expect(row('light sensor, SCL')).toEqual(['A5', set('SCL_PIN')])
  expect(row('battery divider')).toEqual(['none', set('BATTERY_PIN')])
})
