import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { picture } from '../../../../hub/cli/picture.ts'
import { report as reportCommand } from '../../../../hub/cli/report.ts'
import { pictureFiles } from '../../../../hub/contract/report-api.ts'
import { PICTURES } from '../../../../hub/study/pictures/picture-names.ts'
import { printable, signsOf } from '../../../../hub/study/report/font-signs.ts'
import { renderHtml } from '../../../../hub/study/report/render-html.ts'
import { renderPdf } from '../../../../hub/study/report/render-pdf.ts'
import { type ReportModel, table } from '../../../../hub/study/report/report-model.ts'
import { runTussock } from '../../../support/tussock-command.ts'
import { readSvg } from '../pictures/read-svg.ts'
import { ShadeHub } from './shade-survey.ts'

const font = readFileSync(createRequire(import.meta.url).resolve('pdfmake/fonts/Roboto/Roboto-Regular.ttf'))
const HOSTILE = `<script>alert("1")</script>&'`

const hostileReport: ReportModel = {
  title: HOSTILE,
  subtitle: HOSTILE,
  foot: HOSTILE,
  sections: [
    {
      title: HOSTILE,
      beginsPage: false,
      blocks: [
        { kind: 'heading', text: HOSTILE },
        { kind: 'paragraph', parts: [HOSTILE, { text: HOSTILE, href: `/survey/"${HOSTILE}` }] },
        { kind: 'list', items: [[HOSTILE]] },
        { kind: 'note', text: HOSTILE },
        table(HOSTILE, [HOSTILE], [], [[HOSTILE]]),
        { kind: 'ruled', title: HOSTILE, lines: 2 },
        { kind: 'picture', svg: '<svg width="10" height="10" viewBox="0 0 10 10"/>', caption: HOSTILE },
      ],
    },
  ],
}

/** Pages of a PDF, counted by their objects, and as its page tree says. */
function pagesOf(pdf: Uint8Array): { objects: number; said: number } {
  const text = Buffer.from(pdf).toString('latin1')
  return {
    objects: text.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0,
    said: Number(/\/Type \/Pages\s+\/Count (\d+)/.exec(text)?.[1]),
  }
}

describe('HTML', () => {
  test('has no script and nothing that is fetched, whatever people typed', () => {
    const html = renderHtml(hostileReport)
    expect(html).not.toContain('<script')
    expect(html).not.toMatch(/<(img|link|iframe|object)|url\(http|@import|\son\w+="/)
    // without the words that only HTML may leave unclosed it is well-formed XML
    const markup = html.replace('<!doctype html>', '').replaceAll(/<meta[^>]*>/g, '')
    const elements = readSvg(markup)
    expect(elements.find(({ name }) => name === 'title')!.text).toBe(HOSTILE)
    expect(elements.find(({ name }) => name === 'td')!.text).toBe(HOSTILE)
    expect(elements.find(({ name }) => name === 'a')!.attributes['href']).toBe(`/survey/"${HOSTILE}`)
  })

  test('of a whole report gives every picture fills of its own', async () => {
    const open = new ShadeHub()
    const response = await open.app.request('/api/surveys/shade/report.html')
    expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8')
    const html = await response.text()
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const [, id] of html.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(id)
    expect(html.match(/<svg/g)!.length).toBeGreaterThanOrEqual(5)
  })
})

describe('PDF', () => {
  test('of a whole report has several A4 pages and its fonts in it', async () => {
    const open = new ShadeHub()
    const response = await open.app.request('/api/surveys/shade/report.pdf?check=yes')
    expect(response.headers.get('content-type')).toBe('application/pdf')
    const pdf = new Uint8Array(await response.arrayBuffer())
    const text = Buffer.from(pdf).toString('latin1')
    // ISO 32000-1, 7.5: header, end-of-file marker; 9.9: an embedded TrueType font is a FontFile2
    expect(text.startsWith('%PDF-1.')).toBe(true)
    expect(text.trimEnd().endsWith('%%EOF')).toBe(true)
    expect(text).toContain('/FontFile2')
    expect(text).toMatch(/\/MediaBox \[0 0 595\.28 841\.89\]/)
    const { objects, said } = pagesOf(pdf)
    expect(objects).toBe(said)
    expect(said).toBeGreaterThan(5)
  })

  test('is made of whatever people typed', async () => {
    expect(pagesOf(await renderPdf(hostileReport)).said).toBe(1)
  })

  test('prints the signs of the trade: the font has them', () => {
    const signs = signsOf(font)
    const needed = 'ρ ± ° ₂ − × Σ ² ³ ½ µ Ω ∞ ≤ ≥ √ χ “ ” ’ – … · äöüßéñ œ Ł Ж'
    expect(printable(needed, signs)).toBe(needed)
  })

  test('writes signs the font lacks otherwise, and never stops at them', () => {
    const signs = signsOf(font)
    expect(printable('a → b ✓ 林 😀', signs)).toBe('a -> b yes ? ?')
    expect(() => signsOf(new Uint8Array(64))).toThrow(RangeError)
  })
})

test('the routes know every picture by its name', async () => {
  expect(pictureFiles.map((file) => file.replace(/\.svg$/, '')).sort()).toEqual(Object.keys(PICTURES).sort())
  const open = new ShadeHub()
  for (const file of pictureFiles) {
    const response = await open.app.request(`/api/surveys/shade/pictures/${file}?width=400`)
    expect(response.headers.get('content-type')).toBe('image/svg+xml; charset=utf-8')
    expect(readSvg(await response.text())[0]!.attributes['width']).toBe('400')
  }
  expect((await open.app.request('/api/surveys/shade/pictures/nothing.svg')).status).toBe(400)
  expect((await open.app.request('/api/surveys/shade/pictures/scatter.svg?width=10')).status).toBe(400)
  const one = await open.app.request('/api/surveys/shade/pictures/scatter.svg?factors=Soil%20pH&species=ivy')
  expect(await one.text()).toContain('n = 7')
})

describe('the commands', () => {
  test('write the report as a page or a PDF, and a picture', async () => {
    const open = new ShadeHub()
    const at = (name: string) => join(open.folder, name)
    const data = ['--data', open.folder, '--survey', 'shade']
    const page = await runTussock(
      'report',
      ...data,
      '--out',
      at('r.html'),
      '--verdicts',
      'no',
      '--aim',
      'Warmer?',
    )
    expect(page).toMatchObject({ code: 0, stderr: '' })
    const html = readFileSync(at('r.html'), 'utf8')
    expect(html).toContain('Warmer?')
    expect(html).toContain('held back')
    const pdf = await runTussock('report', ...data, '--out', at('r.pdf'), '--window', 'common')
    expect(pdf).toMatchObject({ code: 0, stderr: '' })
    expect(pagesOf(readFileSync(at('r.pdf'))).said).toBeGreaterThan(3)
    const drawn = await runTussock('picture', 'box-plots', ...data, '--out', at('p.svg'))
    expect(drawn).toMatchObject({ code: 0, stderr: '' })
    expect(readSvg(readFileSync(at('p.svg'), 'utf8'))[0]!.name).toBe('svg')
    const nowhere = await runTussock('report', ...data, '--out', '/nowhere/at/all/r.html')
    expect(nowhere.code).toBe(2)
    expect(nowhere.stderr).toContain('E_COMMAND')
  })

  test.each([
    [['--out', 'r.docx', '--survey', 'shade'], 'E_COMMAND'],
    [['--out', 'r.pdf'], 'E_COMMAND'],
    [['--out', 'r.pdf', '--survey', 'shade', '--window', 'some'], 'E_QUERY'],
    [['--out', 'r.pdf', '--survey', 'elsewhere'], 'E_SURVEY_UNKNOWN'],
  ])('report %j is refused with %s', async (args, code) => {
    const open = new ShadeHub()
    await expect(reportCommand.run([...args, '--data', open.folder])).rejects.toMatchObject({ code })
  })

  test.each([
    [['landscape', '--survey', 'shade'], 'E_COMMAND'],
    [['scatter'], 'E_COMMAND'],
    [['scatter', '--survey', 'shade', '--width', 'wide'], 'E_QUERY'],
    [['scatter', '--survey', 'elsewhere'], 'E_SURVEY_UNKNOWN'],
  ])('picture %j is refused with %s', async (args, code) => {
    const open = new ShadeHub()
    await expect(picture.run([...args, '--data', open.folder])).rejects.toMatchObject({ code })
  })
})
