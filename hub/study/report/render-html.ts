import { escapeXml } from '../pictures/svg-text.ts'
import { REPORT_STYLE } from './html-style.ts'
import type { Block, Part, ReportModel, ReportSection, ReportTable } from './report-model.ts'

const UNBROKEN_LETTERS = 24
/** a table of so many rows is not parted by the end of a page */
const SHORT_ROWS = 14

/** The report as one HTML file: nothing is fetched, no script, and it prints on A4. */
export function renderHtml(report: ReportModel): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escapeXml(report.title)}</title>
<style>${REPORT_STYLE}</style>
</head>
<body>
<header>
<h1>${escapeXml(report.title)}</h1>
<p class="subtitle">${escapeXml(report.subtitle)}</p>
</header>
<main>
${report.sections.map(section).join('\n')}
</main>
<footer>${escapeXml(report.foot)}</footer>
</body>
</html>
`
}

function section({ title, blocks, beginsPage }: ReportSection): string {
  const id = title.toLowerCase().replaceAll(/[^a-z]+/g, '-')
  return `<section id="${id}"${beginsPage ? ' class="begins-page"' : ''}>
<h2>${escapeXml(title)}</h2>
${blocks.map(block).join('\n')}
</section>`
}

function block(of: Block): string {
  switch (of.kind) {
    case 'heading':
      return `<h3>${escapeXml(of.text)}</h3>`
    case 'paragraph':
      return `<p>${of.parts.map(part).join('')}</p>`
    case 'note':
      return `<p class="note">${escapeXml(of.text)}</p>`
    case 'list':
      return `<ul>${of.items.map((item) => `<li>${item.map(part).join('')}</li>`).join('')}</ul>`
    case 'table':
      return tableMarkup(of)
    case 'picture':
      return `<figure><div>${of.svg}</div><figcaption>${escapeXml(of.caption)}</figcaption></figure>`
    case 'ruled':
      return `<div class="ruled"><p>${escapeXml(of.title)}</p>${'<div></div>'.repeat(of.lines)}</div>`
  }
}

function part(of: Part): string {
  if (typeof of === 'string') return escapeXml(of)
  // a short number is not parted from its unit at the end of a line
  const look = of.text.length <= UNBROKEN_LETTERS ? ' class="unbroken"' : ''
  return `<a${look} href="${escapeXml(of.href)}">${escapeXml(of.text)}</a>`
}

function tableMarkup({ caption, headings, numbers, rows }: ReportTable): string {
  const look = (column: number) => (numbers.includes(column) ? ' class="number"' : '')
  const head = headings
    .map((text, column) => `<th scope="col"${look(column)}>${escapeXml(text)}</th>`)
    .join('')
  const body = rows
    .map((row) => `<tr>${row.map((cell, column) => `<td${look(column)}>${part(cell)}</td>`).join('')}</tr>`)
    .join('\n')
  const length = rows.length <= SHORT_ROWS ? ' short' : ''
  return `<div class="scroll${length}" tabindex="0" role="region" aria-label="${escapeXml(caption)}"><table>
<caption>${escapeXml(caption)}</caption>
<thead><tr>${head}</tr></thead>
<tbody>
${body}
</tbody>
</table></div>`
}
