import { readNumber } from '../../read-number.ts'

/** What is wrong with a field, in words for the one who fills it in, by its place. */
export type FieldFaults = Record<string, string>

/** Reads numbers from text and notes what cannot be read; a wrong field gives `NaN`. */
export class FieldReader {
  readonly faults: FieldFaults = {}

  fault(path: string, said: string): void {
    this.faults[path] ??= said
  }

  /** @param said  when it is no number from `low` to `high` */
  number(path: string, text: string, low: number, high: number, said: string): number {
    const value = readNumber(text)
    if (value !== null && value >= low && value <= high) return value
    this.fault(path, said)
    return Number.NaN
  }

  whole(path: string, text: string, low: number, high: number, said: string): number {
    const value = this.number(path, text, low, high, said)
    if (Number.isNaN(value) || Number.isInteger(value)) return value
    this.fault(path, said)
    return Number.NaN
  }

  /** A field that may stay empty: then nothing is returned for it. */
  maybe<Name extends string>(
    path: string,
    name: Name,
    text: string,
    low: number,
    high: number,
    said: string,
  ): { [key in Name]?: number } {
    if (text.trim() === '') return {}
    return { [name]: this.number(`${path}.${name}`, text, low, high, said) } as { [key in Name]?: number }
  }
}
