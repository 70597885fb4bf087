import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { Waiting } from '../../pages/no-survey.tsx'
import { usePhoneAddresses } from '../../plan/print/phone-addresses.ts'
import { QrCode } from '../../plan/print/qr-code.tsx'
import { pathTo } from '../../router.ts'
import './phones.css'

/** The hub's addresses large, to be read by the class's phones from the laptop's screen. */
export function PhonesPage({ survey }: { survey: SurveyFile }) {
  const found = usePhoneAddresses()
  if (found === null) return <Waiting />
  if (!found.isReachableByPhones)
    return (
      <article class="field-page phones-page">
        <h1>On phones</h1>
        <p>
          Phones cannot reach this hub: it answers to this computer alone. Set a passphrase with{' '}
          <code>npx tussock passphrase</code>, then start it with <code>npm start -- --host 0.0.0.0</code>, in
          a network of your own.
        </p>
      </article>
    )
  return (
    <article class="field-page phones-page">
      <h1>On phones</h1>
      <p>
        Phones must be in the same Wi-Fi as this computer. Open the camera, point it at a square: it opens{' '}
        <b>Carry a meter</b> of this survey. A phone that says the network has no internet should stay in it.
      </p>
      <ul class="phone-codes">
        {found.addresses.map((address) => (
          <li key={address}>
            <QrCode address={address + pathTo.carry(survey.id)} />
            <b class="figures">{address}</b>
          </li>
        ))}
      </ul>
    </article>
  )
}
