import { describe, expect, test } from 'vitest'
import { placeOf } from '../../../../dashboard/router.ts'
import { linkNumbers } from '../../../../hub/study/report/links.ts'
import type { ReportWish } from '../../../../hub/study/report/report-facts.ts'
import { type Block, type Part, type ReportModel, textOf } from '../../../../hub/study/report/report-model.ts'
import { reportOf } from '../../../../hub/study/report/report-of.ts'
import { phCalibration, ShadeHub, SPECIES_SHEET, shadeSurvey } from './shade-survey.ts'

const WISH: ReportWish = {
  window: 'all',
  withHydrogenIons: false,
  aim: null,
  areVerdictsShown: true,
  coordinates: 'blurred',
  isForChecking: false,
}

const reported = (hub: ShadeHub, wish: Partial<ReportWish> = {}) =>
  reportOf(hub.source(), { ...WISH, ...wish })

function partsOf(block: Block): (readonly Part[])[] {
  if (block.kind === 'paragraph') return [block.parts]
  if (block.kind === 'list') return [...block.items]
  if (block.kind === 'table') return [[block.caption], [...block.headings], ...block.rows]
  if (block.kind === 'picture') return [[block.svg], [block.caption]]
  return [[block.kind === 'ruled' ? block.title : block.text]]
}

/** The words of a section, with plain spaces. */
function wordsOf(report: ReportModel, title: string): string {
  const section = report.sections.find((each) => each.title === title)
  if (!section) throw new Error(`there is no section “${title}”`)
  return section.blocks
    .flatMap(partsOf)
    .map((parts) => textOf(parts))
    .join('\n')
    .replaceAll('\u00a0', ' ')
}

const allWords = (report: ReportModel) =>
  report.sections.map(({ title }) => wordsOf(report, title)).join('\n')

describe('the methods', () => {
  test('say how the electrode was calibrated, with the numbers of story A01', async () => {
    const methods = wordsOf(await reported(new ShadeHub()), 'Methods')
    // the project's domain map, story A01: 7.04 and 4.00 at 15 °C, −56.02 mV per pH, 98.0 %, offset +8.2 mV, pass
    expect(methods).toContain('PH-1 was calibrated on 12 June 2026, 08:00 by G3')
    expect(methods).toContain(
      'buffer technical 7 (pH 7.04 at 15.0 °C) and buffer technical 4 (pH 4.00 at 15.0 °C)',
    )
    expect(methods).toContain('98.0 % of the theoretical slope (−56.02 mV per pH), offset 8.2 mV at pH 7')
    expect(methods).toContain('it passed')
    expect(methods).toContain('serial number PH-0042')
  })

  test('change when the calibration changes', async () => {
    const changed = shadeSurvey()
    changed.calibrations[0] = phCalibration(3.0) as (typeof changed.calibrations)[number]
    const methods = wordsOf(await reported(new ShadeHub(changed)), 'Methods')
    // by hand: (176.3 − 3.0) / (4.00 − 7.04) = −57.01 mV per pH; of −57.18 that is 99.7 %
    expect(methods).toContain('99.7 % of the theoretical slope (−57.01 mV per pH)')
    expect(methods).not.toContain('98.0 %')
  })

  test('say the design, replicates, interval, steadiness, weather and what is clean', async () => {
    const methods = wordsOf(await reported(new ShadeHub()), 'Methods')
    for (const words of [
      'Transect T1 was 16 m long, bearing 90° from its zero mark; it crossed shade (0 m to 7 m) and open (7 m to 16 m).',
      'frames of 0.5 m were laid every 2 m, from 0 m on to 14 m: a systematic sample',
      'put in anew 3 times at each',
      '(24 insertions at 8 quadrats)',
      'logged every 10 s',
      // calibration/steadiness.ts: the rule for soil pH
      'the newest 15 s (at least 4 readings) lay within 0.05 pH',
      // 200 steps of 17 channels and 96 of the electrode are sent; the 200 of the open sky are at no quadrat
      '3296 of 3496 readings were used; left out: 200 readings not at a quadrat',
      'The light of the open sky read between 24 800 lx and 25 200 lx',
      'No check standard was read after fieldwork with PH-1',
      'All limits are the defaults of the tool.',
      'Times are kept in UTC and written here in Europe/London.',
    ])
      expect(methods).toContain(words)
  })

  test('give k from the degrees of freedom, never 2 for three replicates', async () => {
    const report = await reported(new ShadeHub())
    // two degrees of freedom of the spread alone are k = 4.30 (Student, 95 %); a sure probe lets it come out a little lower
    const [, low, high] = /k = (\d\.\d+) to (\d\.\d+)/.exec(wordsOf(report, 'Methods'))!
    expect(Number(low)).toBeGreaterThan(3)
    expect(Number(high)).toBeLessThan(4.31)
    expect(allWords(report)).not.toMatch(/k = 2(?![.\d])/)
  })

  test('link every number to a page of the notebook', async () => {
    const report = await reported(new ShadeHub())
    const methods = report.sections.find(({ title }) => title === 'Methods')!
    const parts = methods.blocks.flatMap(partsOf).flat()
    const links = parts.filter((part) => typeof part !== 'string')
    expect(links.length).toBeGreaterThan(60)
    for (const part of parts)
      if (typeof part === 'string')
        expect(
          linkNumbers(part, '/x').every((each) => typeof each === 'string'),
          part,
        ).toBe(true)
    for (const { href } of links) expect(placeOf(href.split('#')[0]!).page, href).not.toBe('nowhere')
    expect(links).toContainEqual({ text: '98.0\u00a0%', href: '/bench/shade/PH-1/record/ph-cal-1' })
  })

  test('name limits that differ, decisions, clock corrections, checks and what was asked to be corrected', async () => {
    const survey = shadeSurvey({
      boards: [{ name: 'sedge-1', sampleIntervalSeconds: 10 }, { name: 'other-1' }],
      quality: { range: { soil_ph: 'off' } },
      decisions: [
        {
          id: 'd1',
          probe: 'LUX-1',
          from: '2026-06-12T09:00:00Z',
          to: '2026-06-12T09:05:00Z',
          action: 'exclude',
          reason: 'someone stood in front of it',
          by: 'G3',
          at: '2026-06-12T12:00:00Z',
        },
      ],
      clockCorrections: [
        {
          id: 'c1',
          board: 'other-1',
          from: '2026-06-12T09:00:00Z',
          to: '2026-06-12T10:00:00Z',
          offsetSeconds: -90,
          reason: 'set by hand',
          at: '2026-06-12T12:00:00Z',
        },
      ],
      checks: [
        {
          id: 'k1',
          probe: 'PH-1',
          at: '2026-06-12T13:00:00Z',
          when: 'after',
          reference: 4,
          referenceName: 'technical 4',
          signal: 170,
          signalUnit: 'mV',
          temperatureCelsius: 15,
        },
      ],
      driftCorrections: [{ probe: 'PH-1', calibration: 'ph-cal-1', checks: ['k1'] }],
    })
    const report = await reported(new ShadeHub(survey))
    const methods = wordsOf(report, 'Methods')
    expect(methods).toContain('of soil pH was switched off')
    expect(methods).toContain('1 decision was made by hand')
    expect(methods).toContain('were moved by −90 s: set by hand')
    // story A01's line: 7.00 − (170 − 8.24)/56.02 = 4.11
    expect(methods).toContain('PH-1 read 4.11 where 4.00 was true, an error of 0.11')
    expect(methods).toContain('corrected for drift in a straight line of time up to k1')
    expect(methods).not.toContain('No check standard was read after fieldwork with PH-1')
    expect(wordsOf(report, 'What was left out')).toContain('someone stood in front of it')
  })
})

describe('the limitations', () => {
  test('name a calibration that was older than it is trusted', async () => {
    const old = { ...phCalibration(), validFrom: '2026-06-02T07:00:00Z' }
    const survey = shadeSurvey()
    survey.calibrations[0] = old as (typeof survey.calibrations)[number]
    const report = await reported(new ShadeHub(survey))
    // hub/contract/quantity.ts: a pH calibration is trusted for a day
    expect(wordsOf(report, 'Limitations')).toContain(
      'The calibration of PH-1 was 10 days old when it measured; it is trusted for 1 day.',
    )
    expect(wordsOf(await reported(new ShadeHub()), 'Limitations')).not.toContain('old when it measured')
  })

  test('name the questions about the sheet that nobody has answered', async () => {
    const sheet = SPECIES_SHEET.replace('Q1,70,40,0', 'Q1,70,,0')
    const report = await reported(new ShadeHub(shadeSurvey(), sheet))
    expect(wordsOf(report, 'Limitations')).toContain('A question about the species sheet is still open')
  })
})

describe('the results', () => {
  test('have the value of story A01 at Q4, with its interval and its degrees of freedom', async () => {
    const report = await reported(new ShadeHub())
    const results = report.sections.find(({ title }) => title === 'Results')!
    const soilPh = results.blocks.find(
      (block) => block.kind === 'table' && block.caption.startsWith('Soil pH'),
    )
    if (soilPh?.kind !== 'table') throw new Error('there is no table of soil pH')
    const row = soilPh.rows.find(([quadrat]) => textOf([quadrat!]) === 'Q4')!.map((cell) => textOf([cell]))
    // +84.0 mV at 15 °C is pH 5.65; three insertions 4 mV apart spread by 4/56.02 = 0.071
    expect(row.slice(0, 4)).toEqual(['Q4', 'shade', '3 of 3', '5.65'])
    expect(row[soilPh.headings.indexOf('s')]).toBe('0.07')
  })

  test('say ρ, Holm and cautions in words, and hold all of it back when asked', async () => {
    const hub = new ShadeHub()
    const shown = wordsOf(await reported(hub), 'Results')
    expect(shown).toMatch(/The rank correlation of Soil pH with grass is 0\.99/)
    expect(shown).toContain('p (Holm)')
    expect(shown.match(/Going together is not cause/g)).toHaveLength(1)
    const held = wordsOf(await reported(hub, { areVerdictsShown: false }), 'Results')
    expect(held).not.toMatch(/ρ|rank correlation of|p = |significant/)
    expect(held).toContain('We expect')
  })

  test('without species or readings still make a report that says so', async () => {
    const report = await reported(new ShadeHub(shadeSurvey({ placements: [], calibrations: [] }), null))
    expect(wordsOf(report, 'Results')).toContain('There are no clean values yet')
    expect(wordsOf(report, 'Methods')).toContain('No table of species had been added')
  })

  test('the conclusion is an empty box', async () => {
    const conclusion = (await reported(new ShadeHub())).sections.find(
      ({ title }) => title === 'What we conclude',
    )!
    expect(conclusion.blocks.map(({ kind }) => kind)).toEqual(['ruled'])
  })
})

describe('what is told about places and people', () => {
  test('coordinates are blurred unless asked for', async () => {
    const hub = new ShadeHub()
    const site = async (coordinates: ReportWish['coordinates']) =>
      wordsOf(await reported(hub, { coordinates }), 'Site and date')
    expect(await site('blurred')).toContain('51.23° N, 0.99° W, rounded to 0.01°')
    expect(await site('exact')).toContain('51.23456° N, 0.98765° W')
    expect(await site('none')).not.toContain('°')
    expect(allWords(await reported(hub))).not.toContain('51.2345')
  })

  test('the aim is what was given, else the line of the notes that begins with it, else a box', async () => {
    const hub = new ShadeHub()
    expect(wordsOf(await reported(hub), 'Aim')).toBe('does grass follow the light?')
    expect(wordsOf(await reported(hub, { aim: 'Is it warmer outside?' }), 'Aim')).toBe(
      'Is it warmer outside?',
    )
    expect(wordsOf(await reported(hub), 'Site and date')).toContain('A bank beside a path.')
    const survey = shadeSurvey({ site: { name: 'Invented wood' } })
    expect(wordsOf(await reported(new ShadeHub(survey)), 'Aim')).toContain('What we want to find out')
  })

  test('a last page lists the texts that people typed, only when it is asked for', async () => {
    const hub = new ShadeHub()
    expect((await reported(hub)).sections.some(({ title }) => title === 'To be read before sharing')).toBe(
      false,
    )
    const texts = wordsOf(await reported(hub, { isForChecking: true }), 'To be read before sharing')
    for (const text of ['A bank beside a path.', 'G3', 'species.csv', 'bramble'])
      expect(texts).toContain(text)
  })

  test('cells that cannot be used and quadrats that did not join are listed', async () => {
    const sheet = `${SPECIES_SHEET.replace('Q1,70', 'Q1,much')}Q77,1,1,1\n`
    const left = wordsOf(await reported(new ShadeHub(shadeSurvey(), sheet)), 'What was left out')
    expect(left).toContain('much')
    expect(left).toContain('Q77')
  })
})
