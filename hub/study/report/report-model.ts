/** A piece of a sentence; with `href` it leads to the page of the notebook where it comes from. */
export type Part = string | { text: string; href: string }

export interface ReportTable {
  kind: 'table'
  caption: string
  headings: readonly string[]
  /** columns of numbers, set to the right */
  numbers: readonly number[]
  rows: readonly (readonly Part[])[]
}

export type Block =
  | { kind: 'heading'; text: string }
  | { kind: 'paragraph'; parts: readonly Part[] }
  | { kind: 'list'; items: readonly (readonly Part[])[] }
  | ReportTable
  | { kind: 'picture'; svg: string; caption: string }
  | { kind: 'note'; text: string }
  /** left empty, with lines to write on */
  | { kind: 'ruled'; title: string; lines: number }

export interface ReportSection {
  title: string
  blocks: readonly Block[]
  /** on paper it begins a page */
  beginsPage: boolean
}

/** A whole report, whatever it is printed as. */
export interface ReportModel {
  title: string
  /** site and date */
  subtitle: string
  sections: readonly ReportSection[]
  /** at the foot of every page */
  foot: string
}

export function table(
  caption: string,
  headings: readonly string[],
  numbers: readonly number[],
  rows: readonly (readonly Part[])[],
): ReportTable {
  return { kind: 'table', caption, headings, numbers, rows }
}

export function paragraph(...parts: readonly Part[]): Block {
  return { kind: 'paragraph', parts }
}

/** The words of parts, without where they lead. */
export function textOf(parts: readonly Part[]): string {
  return parts.map((part) => (typeof part === 'string' ? part : part.text)).join('')
}
