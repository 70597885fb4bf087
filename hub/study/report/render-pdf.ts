import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js'
import { printable, signsOf } from './font-signs.ts'
import { type Print, sectionContent } from './pdf-sections.ts'
import type { ReportModel } from './report-model.ts'

const require = createRequire(import.meta.url)
const fontFile = (style: string) => require.resolve(`pdfmake/fonts/Roboto/Roboto-${style}.ttf`)

/** The report as a PDF of A4 pages, with its fonts in it and its pictures as vectors. */
export async function renderPdf(report: ReportModel): Promise<Uint8Array> {
  const { default: pdfmake } = await import('pdfmake')
  const fonts = {
    Roboto: {
      normal: fontFile('Regular'),
      bold: fontFile('Medium'),
      italics: fontFile('Italic'),
      bolditalics: fontFile('MediumItalic'),
    },
  }
  const known = new Set(Object.values(fonts.Roboto))
  pdfmake.setFonts(fonts)
  pdfmake.setUrlAccessPolicy(() => false)
  pdfmake.setLocalAccessPolicy((path) => known.has(path))
  const signs = signsOf(readFileSync(fonts.Roboto.normal))
  return pdfmake.createPdf(definition(report, (text) => printable(text, signs))).getBuffer()
}

function definition(report: ReportModel, print: Print): TDocumentDefinitions {
  return {
    pageSize: 'A4',
    pageMargins: [42, 44, 42, 46],
    info: { title: print(report.title), creator: 'Tussock' },
    defaultStyle: { font: 'Roboto', fontSize: 9.5, lineHeight: 1.2 },
    styles: {
      title: { fontSize: 20, bold: true },
      subtitle: { fontSize: 11.5, italics: true, margin: [0, 2, 0, 8] },
      section: { fontSize: 14, bold: true, margin: [0, 14, 0, 5] },
      heading: { fontSize: 10.5, bold: true, margin: [0, 8, 0, 2] },
      note: { fontSize: 8.5, italics: true, margin: [0, 2, 0, 6] },
      caption: { fontSize: 9, bold: true, margin: [0, 5, 0, 1] },
    },
    footer: (page, pages) => ({
      columns: [
        { text: print(report.foot), fontSize: 7.5 },
        { text: `${page} / ${pages}`, fontSize: 7.5, alignment: 'right', width: 50 },
      ],
      margin: [42, 14, 42, 0],
    }),
    content: [
      { text: print(report.title), style: 'title' },
      { text: print(report.subtitle), style: 'subtitle' },
      ...report.sections.flatMap((section) => sectionContent(section, print)),
    ],
  }
}
