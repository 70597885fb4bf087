import type { Quadrat } from '../../../hub/contract/survey.ts'
import { metresText, placeText } from '../../format.ts'
import { QrCode } from './qr-code.tsx'
import { spokenLabel } from './spoken-label.ts'

/** One card: the label large, underlined and spelt out, its place in words, the code of its page. */
export function LabelCard(props: { quadrat: Quadrat; title: string; address: string }) {
  const { quadrat, title, address } = props
  const length = quadrat.label.length
  const size = length <= 3 ? 'is-short' : length <= 6 ? 'is-medium' : 'is-long'
  return (
    <section class="label-card" data-card={quadrat.label} aria-label={`Card of ${quadrat.label}`}>
      <div class="label-card-words">
        <p class={`label-card-label ${size}`}>
          <span class="label-card-underline">{quadrat.label}</span>
        </p>
        <p class="label-card-spoken">{spokenLabel(quadrat.label)}</p>
        <p class="label-card-place">
          {placeText(quadrat)}
          <br />
          {metresText(quadrat.sideMetres)} square
        </p>
        <p class="label-card-title">{title}</p>
      </div>
      <QrCode address={address} />
    </section>
  )
}
