import { type Signal, signal } from '@preact/signals'
import { recall, remember } from '../bench/remembered.ts'

/** How the study is to be made, the same on each of its pages; kept on this device. */
export interface StudyWish {
  /** `common`: only the time in which every standing probe was logging */
  window: 'all' | 'common'
  /** pH as the mean of hydrogen ions as well */
  hydrogenIons: boolean
  /** results stay hidden until the class has written what it expects */
  predictFirst: boolean
}

const USUAL: StudyWish = { window: 'all', hydrogenIons: false, predictFirst: true }
const kept = new Map<string, Signal<StudyWish>>()

export function studyWish(survey: string): Signal<StudyWish> {
  let wish = kept.get(survey)
  if (!wish) {
    wish = signal({ ...USUAL, ...recall<Partial<StudyWish>>(`study ${survey}`, {}) })
    kept.set(survey, wish)
  }
  return wish
}

export function wishFor(survey: string, change: Partial<StudyWish>): void {
  const wish = studyWish(survey)
  wish.value = { ...wish.peek(), ...change }
  remember(`study ${survey}`, wish.value)
}
