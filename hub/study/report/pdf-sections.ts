import type { Content } from 'pdfmake/interfaces.js'
import { pictureContent, ruledContent, tableContent } from './pdf-blocks.ts'
import { type Block, type ReportSection, textOf } from './report-model.ts'

/** Text as the font can print it. */
export type Print = (text: string) => string

/** A longer paragraph may be parted from its heading by the end of a page after all, letters. */
const TOGETHER_LETTERS = 2000

/**
 * A section for the maker of PDFs. Headings are tied to what follows them by the layout itself: asking it for the place of
 * every line afterwards takes several times as long.
 */
export function sectionContent({ title, blocks, beginsPage }: ReportSection, print: Print): Content[] {
  const heading: Content = { text: print(title), style: 'section' }
  const [first = [], ...others] = withHeadings(blocks)
  return [
    ...(beginsPage ? [{ text: '', pageBreak: 'before' as const }] : []),
    ...groupContent(first, print, [heading]),
    ...others.flatMap((group) => groupContent(group, print, [])),
  ]
}

/** Each block with the headings before it. */
function withHeadings(blocks: readonly Block[]): Block[][] {
  const groups: Block[][] = []
  for (const [index, block] of blocks.entries())
    if (index > 0 && blocks[index - 1]!.kind === 'heading') groups.at(-1)!.push(block)
    else groups.push([block])
  return groups
}

function groupContent(group: readonly Block[], print: Print, before: readonly Content[]): Content[] {
  const heads = [...before]
  for (const block of group)
    if (block.kind === 'heading') heads.push({ text: print(block.text), style: 'heading' })
  const body = group.at(-1)
  if (body === undefined || body.kind === 'heading') return heads
  if (body.kind === 'table') return [tableContent(body, print, heads)]
  if (body.kind === 'list')
    return listContent(
      body.items.map((item) => print(textOf(item))),
      heads,
    )
  const content = blockContent(body, print)
  const isLong = body.kind === 'paragraph' && textOf(body.parts).length > TOGETHER_LETTERS
  if (heads.length === 0 || isLong) return [...heads, content]
  return [{ stack: [...heads, content], unbreakable: true }]
}

/** The first entry stays with the headings. */
function listContent([first, ...others]: readonly string[], heads: readonly Content[]): Content[] {
  if (first === undefined) return [...heads]
  return [
    { stack: [...heads, { ul: [first] }], unbreakable: true },
    { ul: others, margin: [0, 0, 0, 5] },
  ]
}

function blockContent(block: Exclude<Block, { kind: 'heading' | 'table' | 'list' }>, print: Print): Content {
  switch (block.kind) {
    case 'paragraph':
      return { text: print(textOf(block.parts)), margin: [0, 0, 0, 5] }
    case 'note':
      return { text: print(block.text), style: 'note' }
    case 'picture':
      return pictureContent(block.svg, block.caption, print)
    case 'ruled':
      return ruledContent(block.title, block.lines, print)
  }
}
