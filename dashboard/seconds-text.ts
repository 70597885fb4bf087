import { numberText } from './format.ts'

/** An error of a time: `0.4 s`, `12 s`, `3.5 min`, `2 h`; two digits, never less than 0.1 s. */
export function secondsText(seconds: number): string {
  const [size, unit] = seconds >= 7200 ? [3600, 'h'] : seconds >= 120 ? [60, 'min'] : [1, 's']
  const shown = Math.max(seconds / size, 0.1)
  return `${numberText(shown, shown < 9.95 && !Number.isInteger(Number(shown.toFixed(1))) ? 1 : 0)} ${unit}`
}
