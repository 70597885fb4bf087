import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { Waiting } from '../../pages/no-survey.tsx'
import { Choice } from '../../parts/field.tsx'
import { pathTo } from '../../router.ts'
import { PlanTabs } from '../plan-tabs.tsx'
import { LabelCard } from './label-card.tsx'
import { usePhoneAddresses } from './phone-addresses.ts'

const CARDS_A_SHEET = 8

/** A card for each quadrat, eight on a sheet of A4 that is cut along its lines. */
export function CardsPage({ survey }: { survey: SurveyFile }) {
  const found = usePhoneAddresses()
  const [chosen, setChosen] = useState<string | null>(null)
  if (found === null) return <Waiting />
  const base = chosen ?? found.addresses[0] ?? location.origin
  const quadrats = survey.quadrats.filter(({ lifted }) => lifted === undefined)
  const sheets = Array.from({ length: Math.ceil(quadrats.length / CARDS_A_SHEET) }, (_, index) =>
    quadrats.slice(index * CARDS_A_SHEET, (index + 1) * CARDS_A_SHEET),
  )
  return (
    <article class="plan-cards plain-page" data-cards={quadrats.length}>
      <div class="not-print">
        <PlanTabs survey={survey.id} here="cards" />
        <h1>Label cards</h1>
        <p>
          Print them on A4, cut along the lines, and pin one to each quadrat. A phone’s camera opens the page
          of that quadrat. Every label is underlined and spelt out, so that 6 and 9, O and 0 stay apart.
        </p>
        {found.isReachableByPhones ? (
          <p>
            The cards open <b class="figures">{base}</b>: phones must be in the same network as the hub.
          </p>
        ) : (
          <div class="faults" role="alert" data-unreachable>
            <p>
              Phones cannot reach <b class="figures">{base}</b>: it is this computer alone. Start the hub for
              the network with <code>npm start -- --host 0.0.0.0</code>, in a network of your own, and print
              the cards from the address it then gives.
            </p>
          </div>
        )}
        {found.addresses.length > 1 && (
          <Choice
            label="Address on the cards"
            value={base}
            choices={found.addresses.map((url) => ({ value: url, label: url }))}
            onValue={setChosen}
          />
        )}
        <p class="form-ways">
          <button type="button" onClick={() => print()} disabled={quadrats.length === 0}>
            Print {quadrats.length} cards
          </button>
        </p>
      </div>
      {quadrats.length === 0 && <p>There are no quadrats yet.</p>}
      {sheets.map((cards) => (
        <section class="card-sheet" key={cards[0]?.label} aria-label="Sheet of cards">
          {cards.map((quadrat) => (
            <LabelCard
              key={quadrat.label}
              quadrat={quadrat}
              title={survey.title}
              address={base + pathTo.carry(survey.id, quadrat.label)}
            />
          ))}
        </section>
      ))}
    </article>
  )
}
