import { type Signal, signal } from '@preact/signals'
import { recall, remember } from '../../bench/remembered.ts'

/** What the class wrote down before it saw a result; it stays on this device. */
export interface Expectation {
  /** one of the choices offered, such as `rises` */
  what: string
  why: string
}

type Expectations = Readonly<Record<string, Expectation>>
const kept = new Map<string, Signal<Expectations>>()

export function expectationsOf(survey: string): Signal<Expectations> {
  let expectations = kept.get(survey)
  if (!expectations) {
    expectations = signal(recall<Expectations>(`study expectations ${survey}`, {}))
    kept.set(survey, expectations)
  }
  return expectations
}

export function keepExpectation(survey: string, about: string, expectation: Expectation): void {
  const expectations = expectationsOf(survey)
  expectations.value = { ...expectations.peek(), [about]: expectation }
  remember(`study expectations ${survey}`, expectations.value)
}

export const aboutPair = (factor: string, species: string) => JSON.stringify([factor, species])
export const aboutZones = (factor: string) => JSON.stringify([factor])
