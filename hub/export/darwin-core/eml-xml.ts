import { rfc3339 } from '../../clock.ts'
import type { StudySummary } from '../../contract/study.ts'
import { licenceFacts } from '../licence.ts'
import { quantityWords } from '../quantity-words.ts'
import type { ExportSource } from '../study-export.ts'
import { siteCoordinates } from './site-coordinates.ts'
import { xmlText } from './xml-text.ts'

/**
 * What a portal shows of a data set, in the Ecological Metadata Language 2.2: written from the data, no names of people.
 * @param days  of the survey, ISO 8601, a day or an interval
 * @see https://eml.ecoinformatics.org/schema/
 */
export function emlXml(source: ExportSource, summary: StudySummary, days: string): string {
  const { survey, version, madeAtMs, wish } = source
  const party = '<positionName>The class of the survey</positionName>'
  const licence = wish.licence && licenceFacts[wish.licence]
  const rights = licence
    ? `This work is licensed under <ulink url="${licence.url}"><citetitle>${licence.title}</citetitle></ulink>.`
    : 'No licence has been given: ask the class before using these data elsewhere.'
  return `<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="https://eml.ecoinformatics.org/eml-2.2.0 https://rs.gbif.org/schema/eml-gbif-profile/1.3/eml.xsd" packageId="${xmlText(survey.id)}/${rfc3339(madeAtMs)}" system="Tussock" scope="system" xml:lang="en">
  <dataset>
    <title xml:lang="en">${xmlText(survey.title)}</title>
    <creator>${party}</creator>
    <metadataProvider>${party}</metadataProvider>
    <pubDate>${rfc3339(madeAtMs).slice(0, 10)}</pubDate>
    <language>en</language>
    <abstract><para>${xmlText(abstractOf(source, summary, days))}</para></abstract>
    <intellectualRights><para>${rights}</para></intellectualRights>
    <coverage>
${geographicXml(source)}      <temporalCoverage>${temporalXml(days)}</temporalCoverage>
    </coverage>
    <contact>${party}</contact>
    <methods>
      <methodStep><description><para>${xmlText(methodsOf(summary, version))}</para></description></methodStep>
    </methods>
  </dataset>
</eml:eml>
`
}

function abstractOf({ survey }: ExportSource, { summaries }: StudySummary, days: string): string {
  const quantities = [...new Set(summaries.map(({ quantity }) => quantityWords(quantity)))]
  const measured = quantities.length === 0 ? 'no abiotic factors yet' : quantities.join(', ')
  return `Plants and abiotic factors (${measured}) in ${survey.quadrats.length} quadrats at ${survey.site.name}, ${days.replace('/', ' to ')}, recorded by a class for teaching.`
}

function methodsOf({ summaries }: StudySummary, version: string): string {
  const used = summaries.reduce((sum, { n }) => sum + n, 0)
  const received = summaries.reduce((sum, each) => sum + each.received, 0)
  const calibrations = new Set(summaries.flatMap((each) => each.calibrations)).size
  return `Probes of the class’s own, ${calibrations} calibrations; each value stands for a quadrat and is the median (soil pH, light) or mean of clean readings, ${used} of ${received} received, whose uncertainty joins probe, calibration and spread. Readings that quality tests found suspect or failed, or that people left out with a reason, do not count. Plants are as the class recorded them: 0 is looked for and absent. Worked out by Tussock ${version}.`
}

function geographicXml({ survey, wish }: ExportSource): string {
  const at = siteCoordinates(survey, wish.coordinates)
  if (!at) return ''
  const { decimalLatitude: latitude, decimalLongitude: longitude } = at
  return `      <geographicCoverage>
        <geographicDescription>${xmlText(survey.site.name)}</geographicDescription>
        <boundingCoordinates>
          <westBoundingCoordinate>${longitude}</westBoundingCoordinate>
          <eastBoundingCoordinate>${longitude}</eastBoundingCoordinate>
          <northBoundingCoordinate>${latitude}</northBoundingCoordinate>
          <southBoundingCoordinate>${latitude}</southBoundingCoordinate>
        </boundingCoordinates>
      </geographicCoverage>
`
}

function temporalXml(days: string): string {
  const [from, to] = days.split('/')
  const date = (day: string) => `<calendarDate>${day}</calendarDate>`
  return to === undefined
    ? `<singleDateTime>${date(from!)}</singleDateTime>`
    : `<rangeOfDates><beginDate>${date(from!)}</beginDate><endDate>${date(to)}</endDate></rangeOfDates>`
}
