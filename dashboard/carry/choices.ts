import { type Signal, signal } from '@preact/signals'
import { recall, remember } from '../bench/remembered.ts'

/** What this phone was told once: its group and meter in a survey, and how it is to behave. */
export interface Choices {
  group: string | null
  meter: string | null
  isAutomatic: boolean
  isMuted: boolean
}

const NONE: Choices = { group: null, meter: null, isAutomatic: false, isMuted: false }
const kept = new Map<string, Signal<Choices>>()

function choicesSignal(survey: string): Signal<Choices> {
  let choices = kept.get(survey)
  if (!choices) {
    choices = signal<Choices>({ ...NONE, ...recall<Partial<Choices>>(`carry ${survey}`, {}) })
    kept.set(survey, choices)
  }
  return choices
}

export function choicesOf(survey: string): Choices {
  return choicesSignal(survey).value
}

export function choose(survey: string, change: Partial<Choices>): void {
  const choices = choicesSignal(survey)
  choices.value = { ...choices.peek(), ...change }
  remember(`carry ${survey}`, choices.value)
}
