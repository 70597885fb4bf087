import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import { archiveFaults } from '../../../hub/export/darwin-core/archive-faults.ts'
import { siteCoordinates } from '../../../hub/export/darwin-core/site-coordinates.ts'
import { rankSaid } from '../../../hub/export/darwin-core/taxon-rank.ts'
import { xmlText } from '../../../hub/export/darwin-core/xml-text.ts'
import { exampleSurvey } from '../../support/example-survey.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { type CsvRow, filesOf, headingsOf, rowsOf } from './read-archive.ts'
import { exported, fillStudy, studySurvey } from './study-hub.ts'

// tests/reference/darwin-core-terms.csv: TDWG Darwin Core term_versions, August 2026, verified
const terms: CsvRow[] = parse(
  readFileSync(new URL('../../reference/darwin-core-terms.csv', import.meta.url), 'utf8'),
  { columns: true },
)
const addresses = new Set(terms.map((row) => row['iri']!))
// terms of Location, Taxon, Record-level and Dublin Core, which that table does not hold: from memory
const others = [
  ...['locality', 'decimalLatitude', 'decimalLongitude', 'geodeticDatum', 'coordinateUncertaintyInMeters'],
  ...['dataGeneralizations', 'basisOfRecord', 'scientificName', 'taxonRank'],
].map((term) => `http://rs.tdwg.org/dwc/terms/${term}`)
for (const address of [...others, 'http://purl.org/dc/terms/license']) addresses.add(address)

async function archive(wish: Record<string, string> = {}, survey = studySurvey()) {
  const folder = temporaryFolder()
  fillStudy(folder, survey)
  const files = filesOf(await exported(folder, 'darwin-core', wish))
  return {
    files,
    events: rowsOf(files['event.csv']),
    occurrences: rowsOf(files['occurrence.csv']),
    measurements: rowsOf(files['measurementorfact.csv']),
  }
}

/** Elements of a kind in a small XML text, each with its attributes and what is in it. */
function elements(xml: string, name: string): { attributes: Record<string, string>; inner: string }[] {
  return [...xml.matchAll(new RegExp(`<${name}\\b([^>]*?)(?:/>|>([\\s\\S]*?)</${name}>)`, 'g'))].map(
    ([, written, inner]) => ({
      attributes: Object.fromEntries(
        [...written!.matchAll(/([\w:]+)="([^"]*)"/g)].map(([, key, value]) => [key!, value!]),
      ),
      inner: inner ?? '',
    }),
  )
}

describe('the Darwin Core archive', () => {
  test('meta.xml names each file, its columns in their places, and only published terms', async () => {
    const { files } = await archive()
    const meta = files['meta.xml']!
    const tables = [...elements(meta, 'core'), ...elements(meta, 'extension')]
    expect(tables.map(({ attributes }) => attributes['rowType']!.split('/').at(-1))).toEqual([
      'Event',
      'Occurrence',
      'MeasurementOrFact',
    ])
    for (const [index, { attributes, inner }] of tables.entries()) {
      expect(addresses).toContain(attributes['rowType'])
      // Darwin Core Text Guide §2: these attributes say how the file is read; from memory
      expect(attributes).toMatchObject({
        encoding: 'UTF-8',
        fieldsTerminatedBy: ',',
        fieldsEnclosedBy: '&quot;',
        ignoreHeaderLines: '1',
      })
      const headings = headingsOf(files[elements(inner, 'location')[0]!.inner])
      expect(elements(inner, index === 0 ? 'id' : 'coreid')[0]!.attributes['index']).toBe('0')
      const fields = elements(inner, 'field').map(({ attributes: { index: place, term } }) => {
        expect(addresses).toContain(term)
        expect(headings[Number(place)]).toBe(term!.split('/').at(-1))
        return Number(place)
      })
      expect(fields).toEqual(headings.map((_, place) => place).slice(index === 0 ? 0 : 1))
    }
  })

  test('ids are there and unique, extensions point to events, parents exist, required terms are filled', async () => {
    const { events, occurrences, measurements } = await archive()
    const ids = new Set(events.map((row) => row['eventID']))
    expect(ids.size).toBe(events.length)
    for (const [rows, key] of [
      [occurrences, 'occurrenceID'],
      [measurements, 'measurementID'],
    ] as const) {
      expect(new Set(rows.map((row) => row[key])).size).toBe(rows.length)
      for (const row of rows) expect(ids).toContain(row['eventID'])
    }
    const parents = events.map((row) => row['parentEventID'])
    expect(parents).toEqual(['', 'example', 'example', 'example'])
    // what portals require of sampling events and occurrences: from memory
    const required = ['eventID', 'eventDate', 'samplingProtocol', 'sampleSizeValue', 'sampleSizeUnit']
    for (const row of events) for (const term of required) expect(row[term]).not.toBe('')
    for (const row of occurrences)
      for (const term of ['occurrenceID', 'basisOfRecord', 'scientificName', 'occurrenceStatus'])
        expect(row[term]).not.toBe('')
    for (const row of measurements) expect(row['measurementType'] && row['measurementValue']).toBeTruthy()
  })

  test('dates are ISO 8601: a day, a time or an interval of them', async () => {
    const { events, measurements } = await archive()
    const one = String.raw`\d{4}-\d\d-\d\d(?:T\d\d:\d\d:\d\d(?:\.\d+)?Z)?`
    const pattern = new RegExp(`^${one}(?:/${one})?$`)
    for (const row of events) expect(row['eventDate']).toMatch(pattern)
    for (const row of measurements)
      if (row['measurementDeterminedDate']) expect(row['measurementDeterminedDate']).toMatch(pattern)
  })

  test('is UTF-8 in lines of one record, without mark-up, whatever people wrote', async () => {
    const survey = studySurvey()
    survey.title = 'Wood <b>edge</b> & “hedge”'
    survey.site.name = 'Line one\nline two, with "quotes"'
    const { files, events } = await archive({}, survey)
    for (const [path, text] of Object.entries(files)) {
      expect([path, text.includes('�')]).toEqual([path, false])
      if (path.endsWith('.csv')) expect([path, /[^\r]\n|<\w/.test(text)]).toEqual([path, false])
    }
    expect(events[0]).toMatchObject({
      eventRemarks: 'Wood edge & “hedge”',
      locality: 'Line one line two, with "quotes"',
    })
    expect(files['eml.xml']).toContain(
      '<title xml:lang="en">Wood &lt;b&gt;edge&lt;/b&gt; &amp; “hedge”</title>',
    )
  })

  test('plants are present or absent as recorded, with what was measured; ground is a measurement', async () => {
    const { occurrences, measurements } = await archive()
    const plants = occurrences.filter((row) => row['occurrenceID']!.includes(':species:'))
    expect(
      plants.map((row) => [
        row['occurrenceID'],
        row['occurrenceStatus'],
        row['organismQuantity'],
        row['taxonRank'],
      ]),
    ).toEqual([
      ['example:Q1:species:Bramble', 'present', '35', ''],
      ['example:Q1:species:Carex%20sp.', 'absent', '0', 'genus'],
      ['example:Q2:species:Bramble', 'present', '0.5', ''],
      ['example:Q2:species:Carex%20sp.', 'present', '12.5', 'genus'],
    ])
    for (const row of plants)
      expect(row).toMatchObject({
        organismQuantityType: 'percentage cover',
        basisOfRecord: 'HumanObservation',
      })
    expect(measurements.filter((row) => row['measurementType'] === 'cover of bare ground')).toHaveLength(2)
  })

  test('animals have their count, and their catch is an event with its effort', async () => {
    const { events, occurrences } = await archive()
    const caught = events.find((row) => row['samplingProtocol'] === 'pitfall trap')!
    expect(caught).toMatchObject({
      eventDate: '2026-06-12T09:00:00.000Z/2026-06-12T09:10:00.000Z',
      sampleSizeValue: '1',
      sampleSizeUnit: 'trap',
      samplingEffort: '0.1667 hours',
    })
    expect(
      occurrences
        .filter((row) => row['eventID'] === caught['eventID'])
        .map((row) => [row['scientificName'], row['individualCount'], row['occurrenceStatus']]),
    ).toEqual([
      ['ground beetle', '3', 'present'],
      ['woodlouse', '0', 'absent'],
    ])
  })

  test('measurements carry value, unit, standard uncertainty, method and time', async () => {
    const { measurements } = await archive()
    const temperature = measurements.find(
      (row) => row['eventID'] === 'example:Q2:20260612' && row['measurementUnit'] === '°C',
    )!
    // values of 15, 15.1, 15.2 in turn, held for 8 s three times, +0.25: means 15.3375, 15.3625, 15.35 (by hand)
    expect(temperature).toMatchObject({
      measurementType: 'soil temperature (mean)',
      measurementValue: '15.35',
    })
    expect(Number(temperature['measurementAccuracy'])).toBeGreaterThan(0)
    expect(temperature['measurementMethod']).toBe(
      'mean of 3 clean insertions of a carried meter; 5 cm deep; probe TEMP-2; calibration temp-cal-2',
    )
  })

  test('coordinates are exact, blurred or none, as was asked', async () => {
    const survey = studySurvey()
    survey.site.latitude = 51.23456
    survey.site.longitude = -0.98765
    const place = async (coordinates: string) => {
      const { events, files } = await archive({ coordinates }, survey)
      return [events[1]!['decimalLatitude'], events[1]!['decimalLongitude'], /51\.2/.test(files['eml.xml']!)]
    }
    expect(await place('exact')).toEqual(['51.23456', '-0.98765', true])
    expect(await place('blurred')).toEqual(['51.23', '-0.99', true])
    expect(await place('none')).toEqual(['', '', false])
  })

  test('a licence is written where it is given, and its absence said', async () => {
    const { events, files } = await archive({ licence: 'CC-BY-NC-4.0' })
    expect(events[0]!['license']).toBe('https://creativecommons.org/licenses/by-nc/4.0/legalcode')
    expect(files['eml.xml']).toContain('by-nc/4.0')
    expect((await archive()).files['eml.xml']).toContain('No licence has been given')
  })
})

describe('archiveFaults', () => {
  test('finds ids that are missing or doubled, rows without an event, a parent that is none, no name', () => {
    const faults = archiveFaults({
      events: [{ eventID: 'a' }, { eventID: 'a' }, { eventID: 'b', parentEventID: 'c' }],
      occurrences: [{ eventID: 'x', occurrenceID: 'o', scientificName: '' }],
      measurements: [{ eventID: 'a' }],
      leftOut: [],
    })
    expect(faults).toEqual([
      'event a twice',
      'measurement without an id',
      'event b below none',
      'a row of x, which is no event',
      'occurrence o without a name',
    ])
  })
})

describe('siteCoordinates', () => {
  test('the circle of a blurred place holds the rounding, the receiver and the tape', () => {
    // at the equator half of 0.01° is 556.6 m both ways, 787.2 m together (by hand, 111.32 km per degree); + 30 + 20 m
    const survey = exampleSurvey()
    survey.site.latitude = 0
    expect(siteCoordinates(survey, 'blurred')!.coordinateUncertaintyInMeters).toBe(838)
    expect(siteCoordinates(survey, 'exact')!.coordinateUncertaintyInMeters).toBe(50)
  })
  test('is null where the survey has none', () => {
    const survey = exampleSurvey()
    delete survey.site.longitude
    expect(siteCoordinates(survey, 'exact')).toBeNull()
  })
})

describe('rankSaid', () => {
  test('takes only what a name says by itself', () => {
    expect(['Carex sp.', 'Carex spp.', 'Rubus fruticosus', 'white clover'].map(rankSaid)).toEqual([
      'genus',
      'genus',
      '',
      '',
    ])
    expect(['Festuca rubra subsp. rubra', 'Salix alba var. vitellina'].map(rankSaid)).toEqual([
      'subspecies',
      'variety',
    ])
  })
})

test('xmlText escapes what marks up and takes out what XML 1.0 cannot hold', () => {
  expect(xmlText(`<a b="c">'&'\u0000\u0007</a>`)).toBe(
    '&lt;a b=&quot;c&quot;&gt;&apos;&amp;&apos;  &lt;/a&gt;',
  )
})
