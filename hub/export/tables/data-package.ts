import { rfc3339 } from '../../clock.ts'
import type { LedgerLine } from '../archive/archive-ledger.ts'
import { licenceFacts } from '../licence.ts'
import type { ExportSource } from '../study-export.ts'
import { ucumOf } from '../ucum.ts'
import type { Column, DataTable } from './data-table.ts'

/**
 * Describes the tables as a Data Package 2.0. `unit` of a field is a property of our own, which the standard allows: the
 * unit of every value in it as SenML and as UCUM write it.
 * @param lineOf  bytes and hash of a table that has been written
 * @see https://datapackage.org/standard/data-package/
 */
export function dataPackage(
  { survey, version, madeAtMs, wish }: ExportSource,
  tables: readonly DataTable[],
  lineOf: (path: string) => LedgerLine,
): unknown {
  return {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: survey.id.toLowerCase(),
    title: survey.title,
    description: `Made by Tussock ${version}. README.txt says what was left out.`,
    created: rfc3339(madeAtMs),
    ...(wish.licence === undefined ? {} : { licenses: [licenceOf(wish.licence)] }),
    sources: [{ title: `Readings of the class’s own probes and its species sheets, ${survey.site.name}` }],
    resources: tables.map((table) => {
      const { path, bytes, sha256 } = lineOf(`${table.name}.csv`)
      return {
        name: table.name,
        path,
        type: 'table',
        title: table.title,
        description: table.description,
        format: 'csv',
        mediatype: 'text/csv',
        encoding: 'utf-8',
        bytes,
        hash: `sha256:${sha256}`,
        dialect: { delimiter: ',', lineTerminator: '\r\n', quoteChar: '"', doubleQuote: true, header: true },
        schema: {
          $schema: 'https://datapackage.org/profiles/2.0/tableschema.json',
          fields: table.columns.map(fieldOf),
          missingValues: [''],
          ...(table.primaryKey ? { primaryKey: table.primaryKey } : {}),
        },
      }
    }),
  }
}

function licenceOf(licence: keyof typeof licenceFacts): { name: string; title: string; path: string } {
  const { title, url } = licenceFacts[licence]
  return { name: licence, title, path: url }
}

function fieldOf({ name, type, title, description, unit, propertyUrl }: Column): unknown {
  return {
    name,
    type,
    title,
    description,
    ...(propertyUrl === undefined ? {} : { rdfType: propertyUrl }),
    ...(unit === undefined ? {} : { unit: { senml: unit, ucum: ucumOf(unit) } }),
  }
}
