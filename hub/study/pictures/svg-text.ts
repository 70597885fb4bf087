/** Values of attributes; numbers are in px and written to the hundredth, undefined leaves the attribute out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>

/** On paper and on any screen: fonts that are there already. */
const FONTS = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"

/** Text that may stand in XML 1.0: its five signs written out, and what XML forbids shown as U+FFFD. */
export function escapeXml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: XML 1.0, production 2: these may not stand in a document
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, '\ufffd')
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
      .replaceAll("'", '&#39;')
  )
}

/** An element. Its children are markup already; text is put in by {@link words}. */
export function tag(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : escapeXml(value!)}"`)
    .join('')
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`
}

/** A line of text with its left end, middle or right end at x, standing on y. */
export function words(x: number, y: number, text: string, attributes: Attributes = {}): string {
  return tag('text', { x, y, ...attributes }, escapeXml(text))
}

export function line(x1: number, y1: number, x2: number, y2: number, attributes: Attributes = {}): string {
  return tag('line', { x1, y1, x2, y2, ...attributes })
}

/** A path through points; `M x y L x y …` */
export function through(points: readonly { x: number; y: number }[], isClosed = false): string {
  const steps = points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`)
  return steps.join('') + (isClosed ? 'Z' : '')
}

export interface SvgSheet {
  widthPx: number
  heightPx: number
  /** what it is, for those who cannot see it */
  title: string
  /** what it shows, in sentences */
  description: string
}

/** A whole picture that stands by itself: sizes set, plain fonts, white ground, nothing fetched. */
export function svgFile(
  { widthPx, heightPx, title, description }: SvgSheet,
  ...children: readonly string[]
): string {
  const height = Math.ceil(heightPx)
  return tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: widthPx,
      height,
      viewBox: `0 0 ${px(widthPx)} ${height}`,
      role: 'img',
      'font-family': FONTS,
      'font-size': 12,
      fill: '#000',
    },
    tag('title', {}, escapeXml(title)),
    tag('desc', {}, escapeXml(description)),
    tag('rect', { x: 0, y: 0, width: widthPx, height, fill: '#fff' }),
    ...children,
  )
}

function px(value: number): string {
  return String(Math.round(value * 100) / 100)
}
