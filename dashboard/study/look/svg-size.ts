export interface PictureSize {
  widthPx: number
  heightPx: number
}

/** How large an SVG says it is: by width and height, or else by its view box. Null when it says neither. */
export function svgSize(svg: string): PictureSize | null {
  const opening = /<svg\b[^>]*>/.exec(svg)?.[0] ?? ''
  const number = (name: string) => Number(new RegExp(`\\s${name}="([\\d.]+)(?:px)?"`).exec(opening)?.[1])
  const [width, height] = [number('width'), number('height')]
  if (width > 0 && height > 0) return { widthPx: width, heightPx: height }
  const box = /\sviewBox="([^"]+)"/
    .exec(opening)?.[1]
    ?.trim()
    .split(/[\s,]+/)
    .map(Number)
  const [, , boxWidth = 0, boxHeight = 0] = box ?? []
  return boxWidth > 0 && boxHeight > 0 ? { widthPx: boxWidth, heightPx: boxHeight } : null
}

/** An SVG as an address of its own: the page's policy lets no other kind of made-up address be drawn. */
export function svgDataAddress(svg: string): string {
  return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`
}
