import { useState } from 'preact/hooks'
import { messageOf } from '../../client.ts'
import { useWidth } from '../../parts/use-width.ts'
import { saveFile } from '../save-file.ts'
import { studyClient } from '../study-client.ts'
import { TroubleNote } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { pictureAddress } from './picture-address.ts'
import { pictureAsPng } from './picture-as-png.ts'
import type { PictureName } from './picture-list.ts'
import { svgDataAddress } from './svg-size.ts'

/** Narrower than this the hub draws none, px. */
const NARROWEST_PX = 320
/** Margin of the white paper around it, px. */
const PAPER_PX = 16

interface Props {
  survey: string
  name: PictureName
  /** what is to be seen, for who does not see it */
  alt: string
  factors?: readonly string[]
  species?: readonly string[]
  /** it is as wide as its place, up to this */
  widestPx?: number
  isHeldBack?: boolean
}

/** A picture as the hub draws it, on white paper, to be saved as SVG or PNG. */
export function Picture(props: Props) {
  const [box, width] = useWidth<HTMLDivElement>()
  const widthPx =
    Math.round(Math.min(props.widestPx ?? 760, Math.max(NARROWEST_PX, width - PAPER_PX)) / 20) * 20
  return <div ref={box}>{width > 0 && <DrawnPicture {...props} widthPx={widthPx} />}</div>
}

function DrawnPicture(props: Props & { widthPx: number }) {
  const { survey, name, alt, factors = [], species = [], widthPx, isHeldBack = false } = props
  const [failed, setFailed] = useState('')
  const { window } = studyWish(survey).value
  const address = pictureAddress(survey, name, { factors, species, widthPx, window, isHeldBack })
  const { answer, trouble, askAgain } = useAsked(survey, () => studyClient.text(address), [address])
  const savePng = (svg: string) =>
    void pictureAsPng(svg)
      .then((png) => {
        setFailed('')
        saveFile(`${name}.png`, png)
      })
      .catch((error: unknown) => setFailed(messageOf(error)))
  return (
    <figure class="picture" data-picture={name} data-drawn={answer === null ? 'no' : 'yes'}>
      {answer === null && !trouble && <p role="status">The hub is drawing…</p>}
      {trouble && (
        <TroubleNote
          trouble={{ ...trouble, message: `This picture could not be fetched. ${trouble.message}` }}
          onAgain={askAgain}
        />
      )}
      {answer !== null && (
        <>
          <div class="picture-paper">
            <img src={svgDataAddress(answer)} alt={alt} />
          </div>
          <p class="picture-ways not-print">
            <button
              type="button"
              class="take plain"
              onClick={() => saveFile(`${name}.svg`, new Blob([answer], { type: 'image/svg+xml' }))}
            >
              Save as SVG
            </button>
            <button type="button" class="take plain" onClick={() => savePng(answer)}>
              Save as PNG
            </button>
          </p>
        </>
      )}
      {failed && (
        <p class="study-trouble" role="alert">
          {failed}
        </p>
      )}
    </figure>
  )
}
