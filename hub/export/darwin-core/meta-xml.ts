import {
  type ArchiveTable,
  EVENT_TABLE,
  MEASUREMENT_TABLE,
  OCCURRENCE_TABLE,
  termAddress,
} from './archive-terms.ts'

/**
 * The descriptor of the archive: which file is the core, which extend it, and what each column is.
 * @see Darwin Core Text Guide, https://dwc.tdwg.org/text/
 */
export function metaXml(): string {
  return `<?xml version="1.0" encoding="UTF-8"?>
<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">
${tableXml('core', EVENT_TABLE)}
${tableXml('extension', OCCURRENCE_TABLE)}
${tableXml('extension', MEASUREMENT_TABLE)}
</archive>
`
}

function tableXml(element: 'core' | 'extension', { path, rowType, columns }: ArchiveTable): string {
  const fields = columns
    .map((term, index) => ({ term, index }))
    // the first column of an extension is the link; its term belongs to the core
    .filter(({ index }) => element === 'core' || index > 0)
    .map(({ term, index }) => `    <field index="${index}" term="${termAddress(term)}"/>`)
  return `  <${element} encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\\r\\n" fieldsEnclosedBy="&quot;" ignoreHeaderLines="1" rowType="${rowType}">
    <files><location>${path}</location></files>
    <${element === 'core' ? 'id' : 'coreid'} index="0"/>
${fields.join('\n')}
  </${element}>`
}
