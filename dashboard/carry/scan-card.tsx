import { useEffect, useRef, useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { goTo, pathTo } from '../router.ts'
import { quadratOnCard } from './card-address.ts'

/** Of the Shape Detection API (W3C community draft), as far as it is used here; few browsers have it. */
interface CardReader {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>
}
type CardReaderMaker = new (options: { formats: string[] }) => CardReader

const LOOK_EVERY_MS = 300

function cardReaderMaker(): CardReaderMaker | null {
  const maker = (globalThis as { BarcodeDetector?: CardReaderMaker }).BarcodeDetector
  return window.isSecureContext && maker && navigator.mediaDevices ? maker : null
}

/** Opens a quadrat by its card: within the page where the browser allows it, otherwise with the phone’s own camera. */
export function ScanCard({ survey }: { survey: SurveyFile }) {
  const [isOpen, setOpen] = useState(false)
  if (cardReaderMaker() === null)
    return (
      <p class="carry-note">
        A quadrat’s card: point the phone’s own camera at it and tap the address; it opens that quadrat here.
      </p>
    )
  return (
    <section class="scan" aria-label="Scan a card">
      <button type="button" class="plain" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
        {isOpen ? 'Close the camera' : 'Scan a quadrat’s card'}
      </button>
      {isOpen && <CardCamera survey={survey} />}
    </section>
  )
}

function CardCamera({ survey }: { survey: SurveyFile }) {
  const video = useRef<HTMLVideoElement>(null)
  const [said, setSaid] = useState('Hold the card before the camera.')
  useEffect(() => {
    let camera: MediaStream | null = null
    let timer: ReturnType<typeof setInterval> | undefined
    let isOver = false
    const begin = async () => {
      const given = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } })
      camera = given
      const reader = new (cardReaderMaker()!)({ formats: ['qr_code'] })
      const picture = video.current
      if (isOver || !picture) return stop()
      picture.srcObject = given
      await picture.play()
      timer = setInterval(() => {
        void reader.detect(picture).then(open, () => undefined)
      }, LOOK_EVERY_MS)
    }
    const open = ([code]: { rawValue: string }[]) => {
      if (!code) return
      const quadrat = quadratOnCard(code.rawValue, survey.id)
      if (quadrat === null) setSaid('This code is not a card of this survey.')
      else goTo(pathTo.carry(survey.id, quadrat))
    }
    const stop = () => {
      isOver = true
      clearInterval(timer)
      for (const track of camera?.getTracks() ?? []) track.stop()
    }
    begin().catch(() =>
      setSaid('The camera could not be opened. The phone’s own camera app reads cards too.'),
    )
    return stop
  }, [survey.id])
  return (
    <>
      <video ref={video} playsInline muted />
      <p role="status">{said}</p>
    </>
  )
}
