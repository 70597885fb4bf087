import { svgDataAddress, svgSize } from './svg-size.ts'

/** Dots for each px of the drawing, so that it prints sharply. */
const FINENESS = 2

/**
 * Draws an SVG as PNG on white paper.
 * @throws Error when the picture names no size, or the browser cannot draw it
 */
export async function pictureAsPng(svg: string): Promise<Blob> {
  const size = svgSize(svg)
  if (!size) throw new Error('The picture does not say how large it is. Save it as SVG instead.')
  const image = new Image()
  image.src = svgDataAddress(svg)
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = Math.round(size.widthPx * FINENESS)
  canvas.height = Math.round(size.heightPx * FINENESS)
  const pen = canvas.getContext('2d')
  if (!pen) throw new Error('This browser cannot draw pictures. Save it as SVG instead.')
  pen.fillStyle = '#fff'
  pen.fillRect(0, 0, canvas.width, canvas.height)
  pen.drawImage(image, 0, 0, canvas.width, canvas.height)
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (png) =>
        png ? resolve(png) : reject(new Error('The picture could not be drawn. Save it as SVG instead.')),
      'image/png',
    ),
  )
}
