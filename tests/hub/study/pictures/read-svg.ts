import { createRequire } from 'node:module'
import { textWidth } from '../../../../hub/study/pictures/text-width.ts'

/** An XML parser not written here; it comes with the library that makes PDFs. */
interface Sax {
  parser(isStrict: boolean): {
    onerror: (error: Error) => void
    onopentag: (node: { name: string; attributes: Record<string, string> }) => void
    ontext: (text: string) => void
    onclosetag: (name: string) => void
    write(text: string): { close(): void }
  }
}
const sax = createRequire(import.meta.url)('sax') as Sax

export interface SvgElement {
  name: string
  attributes: Record<string, string>
  text: string
  /** names of the elements it stands in, outermost first */
  within: string[]
}

/** All elements of an XML text in order. @throws Error when it is not well-formed */
export function readSvg(xml: string): SvgElement[] {
  const elements: SvgElement[] = []
  const open: SvgElement[] = []
  const parser = sax.parser(true)
  parser.onerror = (error) => {
    throw error
  }
  parser.onopentag = ({ name, attributes }) => {
    const element = { name, attributes, text: '', within: open.map((each) => each.name) }
    elements.push(element)
    open.push(element)
  }
  parser.ontext = (text) => {
    const last = open.at(-1)
    if (last) last.text += text
  }
  parser.onclosetag = () => {
    open.pop()
  }
  parser.write(xml).close()
  return elements
}

/** Elements that reach out of the picture, in words. */
export function overflowing(elements: readonly SvgElement[]): string[] {
  const [left, top, width, height] = elements[0]!.attributes['viewBox']!.split(' ').map(Number)
  return elements
    .filter(({ within }) => !within.includes('defs'))
    .flatMap((element) => {
      const points = extent(element)
      const isOut = points.some(
        ({ x, y }) =>
          !(x >= left! - 0.5 && x <= left! + width! + 0.5 && y >= top! - 0.5 && y <= top! + height! + 0.5),
      )
      return isOut ? [`${element.name} “${element.text}” ${JSON.stringify(points)}`] : []
    })
}

function extent({ name, attributes, text }: SvgElement): { x: number; y: number }[] {
  const at = (key: string) => Number(attributes[key])
  const numbers = (from: string) => (from.match(/-?[\d.]+/g) ?? []).map(Number)
  const pairs = (all: readonly number[]) =>
    all.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: all[index + 1]! }] : []))
  switch (name) {
    case 'rect':
      return [
        { x: at('x'), y: at('y') },
        { x: at('x') + at('width'), y: at('y') + at('height') },
      ]
    case 'circle':
      return [
        { x: at('cx') - at('r'), y: at('cy') - at('r') },
        { x: at('cx') + at('r'), y: at('cy') + at('r') },
      ]
    case 'line':
      return [
        { x: at('x1'), y: at('y1') },
        { x: at('x2'), y: at('y2') },
      ]
    case 'path':
      return pairs(numbers(attributes['d']!))
    case 'polygon':
      return pairs(numbers(attributes['points']!))
    case 'text': {
      const size = Number(attributes['font-size'] ?? 12)
      const width = textWidth(text, size)
      const share = { start: 0, middle: 0.5, end: 1 }[attributes['text-anchor'] ?? 'start']!
      const from = at('x') - share * width
      return [
        { x: from, y: at('y') - size },
        { x: from + width, y: at('y') },
      ]
    }
    default:
      return []
  }
}
