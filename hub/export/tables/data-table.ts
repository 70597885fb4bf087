/** A column of a table, as Table Schema and CSVW both tell it. */
export interface Column {
  /** the heading in the file */
  name: string
  type: 'string' | 'number' | 'integer' | 'boolean' | 'datetime'
  title: string
  description: string
  /** of every value in it, as SenML writes it; a table with units of its own for each row has a column of them */
  unit?: string
  /** a term of a published vocabulary that means the same */
  propertyUrl?: string
}

/** One CSV file with what is in it. */
export interface DataTable {
  /** the file is this with `.csv` */
  name: string
  title: string
  description: string
  columns: readonly Column[]
  /** columns that together name one row; without it rows have no name of their own */
  primaryKey?: readonly string[]
  /** the whole text, heading first */
  lines: Iterable<string>
}

export const DARWIN_CORE = 'http://rs.tdwg.org/dwc/terms/'
