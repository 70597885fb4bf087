import { rfc3339 } from '../../clock.ts'
import { licenceFacts } from '../licence.ts'
import type { ExportSource } from '../study-export.ts'
import { ucumOf } from '../ucum.ts'
import type { Column, DataTable } from './data-table.ts'

const DATATYPES: Readonly<Record<Column['type'], string>> = {
  string: 'string',
  number: 'double',
  integer: 'integer',
  boolean: 'boolean',
  datetime: 'dateTimeStamp',
}

/**
 * Describes the tables as one table group of CSV on the Web.
 * @see https://www.w3.org/TR/tabular-metadata/ (W3C Recommendation, 17 December 2015)
 */
export function csvwTableGroup(
  { survey, madeAtMs, wish }: ExportSource,
  tables: readonly DataTable[],
): unknown {
  return {
    '@context': ['http://www.w3.org/ns/csvw', { '@language': 'en' }],
    'dc:title': survey.title,
    'dc:created': rfc3339(madeAtMs),
    ...(wish.licence === undefined ? {} : { 'dc:license': { '@id': licenceFacts[wish.licence].url } }),
    dialect: {
      encoding: 'utf-8',
      delimiter: ',',
      quoteChar: '"',
      doubleQuote: true,
      header: true,
      headerRowCount: 1,
      lineTerminators: ['\r\n'],
    },
    tables: tables.map(({ name, title, description, columns, primaryKey }) => ({
      url: `${name}.csv`,
      'dc:title': title,
      'dc:description': description,
      tableSchema: {
        columns: columns.map(columnOf),
        ...(primaryKey ? { primaryKey: primaryKey.map(variableName) } : {}),
      },
    })),
  }
}

function columnOf({ name, type, title, description, unit, propertyUrl }: Column): unknown {
  return {
    name: variableName(name),
    titles: title === name ? name : [name, title],
    'dc:description': description,
    datatype: DATATYPES[type],
    null: '',
    ...(propertyUrl === undefined ? {} : { propertyUrl }),
    ...(unit === undefined ? {} : { 'schema:unitText': ucumOf(unit) ?? unit }),
  }
}

/** Names must be variables of a URI template (RFC 6570): letters, digits, _ and escapes; a taxon has others too. */
function variableName(heading: string): string {
  return encodeURIComponent(heading)
    .replace(/[!'()*~-]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`)
    .replace(/^_/, '%5F')
}
