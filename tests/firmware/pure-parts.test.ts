import { describe, expect, test } from 'vitest'
import { needCompilers, runInMicroPython, runOnThisComputer } from './build-firmware.ts'

const sources = ['backlog.cpp', 'line.cpp', 'pack.cpp', 'request.cpp', 'startup-slots.cpp']

test('the serial board’s pure parts keep their promises on this computer, bounds and undefined behaviour watched', () => {
  expect(runOnThisComputer('pure-parts.cpp', sources)).toMatch(/^\d{3,} checks\n$/)
})

test('the Wi-Fi board’s pure parts keep their promises in MicroPython', () => {
  expect(runInMicroPython('pure_parts.py')).toBe('all so\n')
})

describe('a compiler that is missing', () => {
  test('is an error that names the packages, never a test left out', () => {
    expect(() => needCompilers(() => false)).toThrow(
      'apt install make gcc g++ gcc-avr avr-libc arduino-core-avr libsimavr-dev',
    )
    expect(() => needCompilers((file) => !file.includes('simavr'))).toThrow(/: apt install libsimavr-dev$/)
  })
  test('is none here', () => {
    expect(() => needCompilers()).not.toThrow()
  })
})
